import { lazy, Suspense, useEffect, useRef } from 'react';
import { INSTRUMENTS, type Instrument } from '../../common/theory/instruments.ts';
import { NOTE_NAMES, type NoteNames, noteName } from '../../common/theory/note-name.ts';
import { plainSigns } from '../../common/theory/plain-signs.ts';
import { SpelledText } from '../engraving/spelled-text.tsx';
import { type Observable, useObservable } from '../state/observable.ts';
import { HelpFields } from './help/help-fields.tsx';
import type { Awake } from './stay-awake.ts';
import './settings-panel.css';

// The practice band comes along with it.
const EarClick = lazy(() => import('./ear-click.tsx').then((module) => ({ default: module.EarClick })));

export interface StandSettings {
  readonly part: string;
  readonly concert: boolean;
  readonly theme: 'night' | 'paper';
  readonly reading: 'roll' | 'page';
  /** Lost spots are said ahead in words. */
  readonly lostWords: boolean;
  readonly noteNames: NoteNames;
}

export interface SettingsPanelProps {
  settings: StandSettings;
  onChange: (fields: Partial<StandSettings>) => void;
  /** It stays where it is while it is not open, unseen. */
  open: boolean;
  /** The feel of the chart's head. */
  feel: string;
  onClose: () => void;
  /** How exact the clock is; null while it is being found. */
  errorMs: Observable<number | null>;
  awake: Awake;
}

const instrumentWords = ({ name, transposition }: Instrument, names: NoteNames): string =>
  transposition === 'C' || name.includes(transposition)
    ? name
    : `${name} (${noteName(plainSigns(transposition), names)})`;

const Choice = <Value extends string>(props: {
  legend: string;
  name: keyof StandSettings;
  value: Value;
  options: readonly (readonly [Value, string])[];
  onChange: (value: Value) => void;
}) => (
  <fieldset className="panel-choice">
    <legend>{props.legend}</legend>
    {props.options.map(([value, words]) => (
      <button
        key={value}
        type="button"
        className="button"
        aria-pressed={props.value === value}
        data-setting={`${props.name}:${value}`}
        onClick={() => props.onChange(value)}
      >
        <span>
          <SpelledText text={words} />
        </span>
      </button>
    ))}
  </fieldset>
);

const AWAKE_WORDS: Readonly<Record<Awake, string>> = {
  lock: 'The screen stays on.',
  video: 'The screen stays on.',
  no: 'The screen may switch itself off: touch it once, or set a longer time in the settings of this tablet.',
};

/** Who came by keyboard goes on from where the panel was opened. */
const focusDot = (): void => document.querySelector<HTMLElement>('.stand-dot')?.focus();

/** What one can set on this stand, and how exact its clock is. */
export const SettingsPanel = (props: SettingsPanelProps) => {
  const { settings, onChange, open, feel, onClose, awake } = props;
  const errorMs = useObservable(props.errorMs);
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    if (!open) return;
    const close = (event: Event) => {
      if (event instanceof KeyboardEvent ? event.key !== 'Escape' : inside(event)) return;
      onClose();
      if (event instanceof KeyboardEvent) focusDot();
    };
    const inside = (event: Event) =>
      event.target instanceof Element &&
      (panel.current?.contains(event.target) === true || event.target.closest('.stand-dot') !== null);
    document.addEventListener('keydown', close);
    document.addEventListener('pointerdown', close);
    panel.current?.querySelector('select')?.focus({ preventScroll: true });
    return () => {
      document.removeEventListener('keydown', close);
      document.removeEventListener('pointerdown', close);
    };
  }, [open, onClose]);
  return (
    <section className="panel stand-panel" aria-label="settings of this stand" ref={panel}>
      <label className="field">
        <span>I read for</span>
        <select
          value={settings.part}
          data-setting="part"
          onChange={(event) => onChange({ part: event.target.value })}
        >
          {!INSTRUMENTS.some(({ id }) => id === settings.part) && (
            <option value={settings.part}>{settings.part === '' ? 'choose' : settings.part}</option>
          )}
          {INSTRUMENTS.map((instrument) => (
            <option key={instrument.id} value={instrument.id}>
              {instrumentWords(instrument, settings.noteNames)}
            </option>
          ))}
        </select>
      </label>
      <HelpFields part={settings.part} />
      <Choice
        legend="Key"
        name="concert"
        value={settings.concert ? 'concert' : 'own'}
        options={[
          ['own', 'my key'],
          ['concert', 'concert'],
        ]}
        onChange={(value) => onChange({ concert: value === 'concert' })}
      />
      <Choice
        legend="Light"
        name="theme"
        value={settings.theme}
        options={[
          ['night', 'night'],
          ['paper', 'paper'],
        ]}
        onChange={(theme) => onChange({ theme })}
      />
      <Choice
        legend="Layout"
        name="reading"
        value={settings.reading}
        options={[
          ['roll', 'roll'],
          ['page', 'page'],
        ]}
        onChange={(reading) => onChange({ reading })}
      />
      <Choice
        legend="Lost spots"
        name="lostWords"
        value={settings.lostWords ? 'said' : 'marked'}
        options={[
          ['said', 'said ahead'],
          ['marked', 'only marked'],
        ]}
        onChange={(value) => onChange({ lostWords: value === 'said' })}
      />
      <Choice
        legend="Note names"
        name="noteNames"
        value={settings.noteNames}
        options={NOTE_NAMES.map((names) => [
          names,
          ['C', 'Bb', 'B'].map((note) => noteName(note, names)).join(' '),
        ])}
        onChange={(noteNames) => onChange({ noteNames })}
      />
      <Suspense fallback={null}>
        <EarClick feel={feel} />
      </Suspense>
      <p className="small" data-clock={errorMs === null ? '' : errorMs.toFixed(1)}>
        {errorMs === null
          ? 'Finding the beat: the clock of this stand is being set.'
          : `In time to within ${errorMs < 10 ? errorMs.toFixed(1) : Math.round(errorMs)} ms.`}
      </p>
      <p className="small">{AWAKE_WORDS[awake]}</p>
      <button
        type="button"
        className="button"
        onClick={() => {
          onClose();
          focusDot();
        }}
      >
        close
      </button>
    </section>
  );
};

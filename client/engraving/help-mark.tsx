import type { CSSProperties, ReactNode } from 'react';
import type { Help } from '../../common/help/help.ts';
import type { KeyboardVoicing } from '../../common/shapes/keyboard/keyboard-voicing.ts';
import type { GuideTone } from '../../common/theory/harmony/guide-tones.ts';
import { printNumbered } from '../../common/theory/harmony/number-view.ts';
import { noteName } from '../../common/theory/note-name.ts';
import { printDegree } from '../../common/theory/plain-signs.ts';
import { textWidthEm } from './chord-metrics.ts';
import { FretDiagram } from './fret-diagram.tsx';
import type { HelpLine } from './help-line.ts';
import { KeyboardDiagram, spokenKeys } from './keyboard-diagram.tsx';
import { useNoteNames } from './note-names.ts';
import { Numeral, numeralWidthEm } from './numeral.tsx';
import { SpelledText } from './spelled-text.tsx';

/** How the player sees the fretboard. */
export interface Neck {
  /** It is drawn for a left hand that strums. */
  readonly leftHanded: boolean;
  /** Names of the strings in the order in which they lie. */
  readonly strings: readonly string[];
}

export interface HelpMarkProps extends Neck {
  readonly help: Help;
  /** What it has in common with the others of its line. */
  readonly line: Pick<HelpLine, 'narrow' | 'frets' | 'keyboardWidth' | 'notes'>;
}

/** What one chord tells one player, as large as its box allows. */
export const HelpMark = ({ help, line, ...neck }: HelpMarkProps) => {
  const { narrow } = line;
  switch (help.kind) {
    case 'shape':
      return <FretDiagram shape={help.shape} narrow={narrow} frets={line.frets} {...neck} />;
    case 'voicing':
      return narrow ? (
        <VoicingNames voicing={help.voicing} notes={line.notes} />
      ) : (
        <KeyboardDiagram voicing={help.voicing} widest={line.keyboardWidth} />
      );
    case 'bass':
      return <BassMark narrow={narrow} {...help} />;
    case 'guide':
      return <GuideMark narrow={narrow} {...help} />;
    case 'scale':
      return <ScaleMark {...help} />;
    case 'numeral':
      return (
        <Fitted widthEm={numeralWidthEm(help.numeral)}>
          <Numeral numeral={help.numeral} />
        </Fitted>
      );
    case 'words':
      return <span className="help-words">{help.text}</span>;
    case 'form':
      return <FormMark {...help} />;
    case 'number': {
      const text = printNumbered(help.number);
      return (
        <Fitted text={text}>
          <SpelledText text={text} />
        </Fitted>
      );
    }
  }
};

/** A line of text that is never wider than its box. */
const Fitted = (props: {
  readonly text?: string;
  readonly widthEm?: number;
  readonly children: ReactNode;
}) => {
  const widthEm = props.widthEm ?? textWidthEm(props.text ?? '');
  return (
    <span className="help-text" style={{ '--w': (widthEm * 1.04).toFixed(3) } as CSSProperties}>
      {props.children}
    </span>
  );
};

/** The notes of a voicing as they lie, the highest on top; the right hand beside the left one. */
const VoicingNames = ({
  voicing: { keys },
  notes,
}: { readonly voicing: KeyboardVoicing } & Pick<HelpLine, 'notes'>) => {
  const names = useNoteNames();
  return (
    <span
      className="help-voicing"
      role="img"
      aria-label={spokenKeys(keys, names)}
      style={{ '--notes': notes.rows, '--w': notes.widthEm.toFixed(3) } as CSSProperties}
    >
      {(['left', 'right'] as const).map((hand) => (
        <span key={hand} className="help-hand">
          {keys
            .filter((key) => key.hand === hand)
            .toReversed()
            .map(({ pitch, note, degree }) => (
              <span key={pitch} data-root={degree === '1' ? '' : undefined}>
                <SpelledText text={noteName(note, names)} />
              </span>
            ))}
        </span>
      ))}
    </span>
  );
};

/** Where there is little room one stands above the other. */
const BassMark = ({
  root,
  fifth,
  approach,
  narrow,
}: Extract<Help, { kind: 'bass' }> & { readonly narrow: boolean }) => {
  const names = useNoteNames();
  const then = approach ?? fifth;
  const [first, last] = [noteName(root, names), noteName(then, names)];
  if (narrow) {
    return (
      <span className="help-guides" data-narrow="">
        <span className="help-guide">
          <SpelledText text={first} />
        </span>
        <span className="help-guide" data-approach={approach === null ? undefined : ''}>
          <span className="visually-hidden">{approach === null ? ', fifth ' : ', then '}</span>
          <SpelledText text={last} />
          {approach !== null && <Arrow />}
        </span>
      </span>
    );
  }
  return (
    <Fitted text={`${first}  ${last} `}>
      <SpelledText text={first} />
      <span className="help-then" data-approach={approach === null ? undefined : ''}>
        <span className="visually-hidden">{approach === null ? ', fifth ' : ', then '}</span>
        <SpelledText text={last} />
        {approach !== null && <Arrow />}
      </span>
    </Fitted>
  );
};

/** Where there is little room the notes are larger and do without their degrees. */
const GuideMark = ({
  upper,
  lower,
  narrow,
}: Extract<Help, { kind: 'guide' }> & { readonly narrow: boolean }) => (
  <span className="help-guides" data-narrow={narrow ? '' : undefined}>
    <GuideNote {...upper} isBare={narrow} />
    <GuideNote {...lower} isBare={narrow} />
  </span>
);

const GuideNote = ({ note, degree, resolves, isBare }: GuideTone & { readonly isBare: boolean }) => {
  const name = noteName(note.replace(/-?\d+$/, ''), useNoteNames());
  return (
    <span className="help-guide">
      <SpelledText text={name} />
      {!isBare && (
        <small>
          <SpelledText text={printDegree(degree)} />
        </small>
      )}
      {resolves && (
        <>
          <Arrow down />
          <span className="visually-hidden"> falls a semitone</span>
        </>
      )}
    </span>
  );
};

const ScaleMark = ({ tonic, scale }: Extract<Help, { kind: 'scale' }>) => {
  const text = `${noteName(tonic, useNoteNames())} ${scale}`;
  return (
    <Fitted text={text}>
      <SpelledText text={text} />
    </Fitted>
  );
};

/** "3 of 8", and what comes early. */
const FormMark = ({ bar, of, pushes }: Extract<Help, { kind: 'form' }>) => (
  <Fitted text={`${bar} of ${of}  push ${pushes.join(' ')}`}>
    {bar} <small>of {of}</small>
    {pushes.length > 0 && <span className="help-then">push {pushes.join(' ')}</span>}
  </Fitted>
);

/** Leads on to the next chord; downwards, by a semitone. */
const Arrow = ({ down = false }: { readonly down?: boolean }) => (
  <svg className="help-arrow" viewBox="0 0 40 40" aria-hidden="true" data-down={down ? '' : undefined}>
    <path d="M5 20 H32 M22 9 L34 20 L22 31" />
  </svg>
);

import { TradeSign } from '../engraving/trade-sign.tsx';
import { BAR_TOOLS } from './bar-tools.ts';
import { SIGN_TOOLS } from './sign-tools.ts';
import { type AtHand, chosenBars, type Tool, type Tray } from './tool.ts';

export type ToolGroup = 'bars' | 'signs';

const GROUPS: Readonly<Record<ToolGroup, readonly Tool[]>> = { bars: BAR_TOOLS, signs: SIGN_TOOLS };
const GROUP_NAMES = Object.keys(GROUPS) as ToolGroup[];

/** A touch on a tool must not lose the bar that is being typed. */
const stayInField = (event: { preventDefault: () => void }) => event.preventDefault();

/** The tools along the foot, the trade's signs: those for whole bars and those for signs in them. */
export const Foot = ({ at, tray, group, onGroup, onUse }: FootProps) => (
  <footer className="pencil-foot" data-group={group}>
    <fieldset className="tools tool-groups" aria-label="which tools">
      {GROUP_NAMES.map((name) => (
        <button
          type="button"
          className="tool tool-group-key"
          key={name}
          aria-pressed={group === name}
          onPointerDown={stayInField}
          onClick={() => onGroup(name)}
        >
          {name}
        </button>
      ))}
    </fieldset>
    {GROUP_NAMES.map((name) => (
      <fieldset className="tools" data-tools={name} aria-label={`tools for ${name}`} key={name}>
        {GROUPS[name].map((tool) => (
          <ToolKey
            key={tool.id}
            tool={tool}
            at={at}
            isOpen={'tray' in tool && tool.tray === tray}
            onUse={onUse}
          />
        ))}
      </fieldset>
    ))}
  </footer>
);

const ToolKey = ({ tool, at, isOpen, onUse }: ToolKeyProps) => {
  const bars = chosenBars(at);
  const isOn = isOpen || (bars.length > 0 && tool.isOn?.(bars) === true);
  return (
    <button
      type="button"
      className="tool"
      data-tool={tool.id}
      disabled={tool.needsBars && bars.length === 0}
      aria-pressed={tool.isOn === undefined && !('tray' in tool) ? undefined : isOn}
      onPointerDown={stayInField}
      onClick={() => onUse(tool)}
    >
      {typeof tool.sign === 'string' ? (
        <TradeSign name={tool.sign} className="tool-sign" />
      ) : (
        <span className="tool-letter" aria-hidden="true">
          {tool.sign.letter}
        </span>
      )}
      {tool.name}
    </button>
  );
};

interface ToolKeyProps {
  readonly tool: Tool;
  readonly at: AtHand;
  /** Its tray is open. */
  readonly isOpen: boolean;
  readonly onUse: (tool: Tool) => void;
}

interface FootProps {
  readonly at: AtHand;
  readonly tray: Tray | null;
  /** Which tools are shown where there is no room for all. */
  readonly group: ToolGroup;
  readonly onGroup: (group: ToolGroup) => void;
  readonly onUse: (tool: Tool) => void;
}

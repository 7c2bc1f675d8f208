import type { ChordPiece } from './lay-chord.ts';
import { SIGN_PATHS } from './sign-path.ts';

/** Letters and signs of a chord that is laid, in an SVG whose unit is a hundredth of the font size. */
export const ChordPieces = ({ pieces }: { pieces: readonly ChordPiece[] }) =>
  pieces.map((piece) => {
    const key = `${piece.kind}${piece.xEm}`;
    const place = `translate(${(piece.xEm * 100).toFixed(2)} ${(piece.yEm * 100).toFixed(2)}) scale(${piece.scale})`;
    if (piece.kind === 'text') {
      return (
        <text key={key} transform={place}>
          {piece.text}
        </text>
      );
    }
    const path = SIGN_PATHS[piece.sign];
    return path.fill === undefined ? (
      <path
        key={key}
        transform={place}
        d={path.stroke}
        className="chord-line"
        strokeWidth={path.strokeWidth}
      />
    ) : (
      <path key={key} transform={place} d={path.fill} />
    );
  });

import { useEffect, useState } from 'react';

interface Drawing {
  readonly size: number;
  readonly path: string;
}

/** Light around the code, in modules: readers need it. */
const QUIET = 3;

const drawCode = async (text: string): Promise<Drawing> => {
  const { create } = await import('qrcode');
  const { modules } = create(text, { errorCorrectionLevel: 'M' });
  let path = '';
  for (let row = 0; row < modules.size; row++) {
    for (let column = 0; column < modules.size; column++) {
      if (modules.get(row, column)) path += `M${column + QUIET} ${row + QUIET}h1v1h-1z`;
    }
  }
  return { size: modules.size + 2 * QUIET, path };
};

/** A link as a code for a camera: dark on light in both themes, else many cameras miss it. */
export const QrCode = ({ text, label }: { readonly text: string; readonly label: string }) => {
  const [drawing, setDrawing] = useState<Drawing | null>(null);
  useEffect(() => {
    let here = true;
    drawCode(text).then(
      (drawn) => here && setDrawing(drawn),
      (error: unknown) =>
        console.warn('The code could not be drawn; the link beside it does the same.', error),
    );
    return () => {
      here = false;
    };
  }, [text]);
  return (
    <svg
      className="qr-code"
      viewBox={`0 0 ${drawing?.size ?? 1} ${drawing?.size ?? 1}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect width="100%" height="100%" fill="#ffffff" />
      {drawing && <path d={drawing.path} fill="#000000" />}
    </svg>
  );
};

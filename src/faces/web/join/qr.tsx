import { generate } from "lean-qr";
import { useMemo } from "preact/compat";

const quietModules = 4;
/** A text as a QR picture: dark on light in every light of the room, since a camera reads it. Source: ISO/IEC 18004, quiet zone of four modules. */
export function Qr({ of }: { readonly of: string }) {
  const { size, path } = useMemo(() => {
    const code = generate(of);
    const dark = Array.from({ length: code.size * code.size }, (_, i) => [i % code.size, Math.floor(i / code.size)] as const);
    const squares = dark.flatMap(([x, y]) => (code.get(x, y) ? [`M${x + quietModules} ${y + quietModules}h1v1h-1z`] : []));
    return { size: code.size + 2 * quietModules, path: squares.join("") };
  }, [of]);
  return (
    <svg
      className="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label="The same address and code as a QR picture"
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  );
}

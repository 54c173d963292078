import { useMemo } from "preact/compat";
import type { Form } from "../../../job/forms";
import { tubeBaseOf } from "../../../job/rollups/tube-base";
import type { JobView } from "../../../job/view";
import { baseSvg } from "../../figures/base-svg";
import { pageInk } from "../figure/ink";

const widthPx = 360;
/** The base of the tube whose row is being written, from below: where the probe goes now. */
export function Base({
  view,
  form,
  draft,
  row,
  pin,
}: {
  readonly view: JobView;
  readonly form: Form;
  readonly draft: Readonly<Record<string, string>>;
  readonly row: number;
  readonly pin: string;
}) {
  const base = useMemo(() => tubeBaseOf(view, form, draft, row), [view, form, draft, row]);
  if (!base) return null;
  const lit = Number(pin);
  return (
    <figure className="plot base noprint">
      {/* biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by our own figure writer, every text escaped */}
      <div dangerouslySetInnerHTML={{ __html: baseSvg(base, Number.isInteger(lit) && lit > 0 ? lit : undefined, widthPx, pageInk).svg }} />
      <figcaption>
        {base.socket}, {base.type}, seen from below. Number the pins clockwise from {base.pins.length === 8 ? "the key" : "the gap"}.
      </figcaption>
    </figure>
  );
}

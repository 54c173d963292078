import { options } from "preact";

/** Where a line could end between a number and its unit. */
export const parted = /(\d) (?=(?:[munpkMG]?(?:V|A|W|Hz|F|H|S)|µ[VAFHSs]|[kM]?Ω|[cm]?m|dBm?|%|min|m?s|h|K|ppm)(?![\wΩ]))/g;
/** A text whose numbers stay on one line with their units. */
export const together = (text: string): string => text.replace(parted, "$1\u00a0");

/** What may hold a value of its own, letter for letter. */
const verbatim: ReadonlySet<unknown> = new Set(["option", "textarea", "pre", "code"]);

/** From now on every text that a page shows keeps its numbers together with their units. */
export function keepTogether(): void {
  const before = options.vnode;
  options.vnode = (node) => {
    if (typeof node.type === "string" && !verbatim.has(node.type)) {
      const { children } = node.props;
      if (typeof children === "string") node.props.children = together(children);
      else if (Array.isArray(children)) node.props.children = children.map((c) => (typeof c === "string" ? together(c) : c));
    }
    before?.(node);
  };
}

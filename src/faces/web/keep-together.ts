import { options } from "preact";
import { together } from "../../units/together";

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

import { setFromOutline } from "../../set/outline";
import { type OutlineField, outlineFields } from "../../set/outline-fields";
import { upperFirst } from "../../units/sentence";
import { api } from "./api";
import { InWords } from "./described/in-words";
import { useKept } from "./kept";
import { openPage } from "./links";
import { Panel } from "./parts";
import { TaskLine, useTask } from "./task";

/** A set from its tubes and a few words, as one would tell a friend. */
const FewWords = () => (
  <InWords
    name=""
    title="From a tube line-up and a few words"
    says="Type the tubes in order, the IF, the bands, as you would tell a friend."
    example={"6SG7 6SA7 6SK7 6SK7 6SQ7 6V6 5Y3\nIF 455 kHz"}
    button="Start the job from this"
    done={openPage}
  />
);

/** A set described from nothing, with help at each field; what is left empty is assumed. */
export function FromNothing() {
  const [name, setName] = useKept("from-nothing-name", "");
  const [said, setSaid] = useKept<Record<string, string>>("from-nothing", {});
  const task = useTask();
  const read = setFromOutline(said);
  const wrong = new Map((read.ok ? [] : read.issues).map((i) => [i.path.split(" ")[0], i] as const));
  const make = () =>
    task.run("Making the job", async () => {
      const made = await api.create(name.trim(), { outline: said });
      setName("");
      setSaid({});
      openPage(made.name);
      return undefined;
    });
  return (
    <main className="describe">
      <h1>Describe a set from scratch</h1>
      <p>Type what you know, the way the trade writes it. What you leave alone is assumed, and marked so, until you state or measure it.</p>
      <FewWords />
      <form
        onSubmit={(e) => {
          e.preventDefault();
          void make();
        }}
      >
        <Panel title="The set" id="fields">
          <label className="field">
            Name of the job
            <input
              value={name}
              onChange={(e) => setName(e.currentTarget.value)}
              required
              maxLength={80}
              placeholder="Whose set, which set"
            />
          </label>
          <div className="outlines">
            {outlineFields.map((f) => {
              const issue = wrong.get(f.id);
              return (
                <div key={f.id} className="outline">
                  <label htmlFor={`o-${f.id}`}>{f.label}</label>
                  <Entry field={f} value={said[f.id] ?? ""} wrong={issue !== undefined} onChange={(v) => setSaid({ ...said, [f.id]: v })} />
                  <span id={`o-${f.id}-said`} className={issue ? "said wrong" : "said"}>
                    {issue ? `${issue.path}: read “${issue.read}”, expected ${issue.expected}` : `${upperFirst(f.help)}.`}
                  </span>
                </div>
              );
            })}
          </div>
        </Panel>
        <button type="submit" disabled={wrong.size > 0}>
          Start this job
        </button>
        <TaskLine of={task} />
      </form>
    </main>
  );
}

function Entry({
  field: f,
  value,
  wrong,
  onChange,
}: {
  readonly field: OutlineField;
  readonly value: string;
  readonly wrong: boolean;
  readonly onChange: (v: string) => void;
}) {
  const common = { id: `o-${f.id}`, "aria-invalid": wrong, "aria-describedby": `o-${f.id}-said` };
  const typed = (e: { currentTarget: { value: string } }) => onChange(e.currentTarget.value);
  if (f.kind === "choice")
    return (
      <select {...common} value={value || f.assumed} onChange={typed}>
        {f.options?.map((o) => (
          <option key={o.id} value={o.id}>
            {o.says}
          </option>
        ))}
      </select>
    );
  if (f.kind === "lines") return <textarea {...common} rows={5} value={value} placeholder={f.assumed} onChange={typed} />;
  return <input {...common} value={value} placeholder={`${f.assumed}, assumed`} onChange={typed} />;
}

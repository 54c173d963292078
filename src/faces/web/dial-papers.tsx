import { licences } from "../../standards/bands";
import { api, download } from "./api";
import { useKept } from "./kept";
import { Panel, Select } from "./parts";
import { TaskLine, useTask } from "./task";

/** The card and the true-scale dial scale of this dial. */
export function Papers({ name, at }: { readonly name: string; readonly at: string }) {
  const [card, setCard] = useKept("dial-card", { step: "50 kHz", licence: "", mode: "" });
  const [shape, setShape] = useKept("dial-scale", {
    shape: "arc",
    radius: "70",
    sweep: "180 deg",
    length: "150",
    sense: "forward",
    paper: "A4",
    measuredAcross: "100",
    measuredDown: "100",
  });
  const task = useTask();
  const fetchPaper = (url: string, file: string) =>
    task.run("Drawing it", async (signal) => {
      await download(url, file, signal);
      return `${file} is in your downloads.`;
    });
  const text = (k: keyof typeof shape, label: string) => (
    <label className="field">
      {label}
      <input value={shape[k]} onChange={(e) => setShape({ ...shape, [k]: e.currentTarget.value })} />
    </label>
  );
  return (
    <Panel title="On paper" id="papers">
      <div className="row">
        <Select
          label="Step of the table"
          value={card.step}
          onChange={(step) => setCard({ ...card, step })}
          options={["10 kHz", "25 kHz", "50 kHz", "100 kHz"].map((s) => [s, s] as const)}
        />
        <Select
          label="Band edges of"
          value={card.licence}
          onChange={(licence) => setCard({ ...card, licence })}
          options={[["", "this job"], ...licences.map((s) => [s, s] as const)]}
        />
        <Select
          label="Sending"
          value={card.mode}
          onChange={(mode) => setCard({ ...card, mode })}
          options={[["", "as in this job"], ...["CW", "AM", "USB", "LSB"].map((s) => [s, s] as const)]}
        />
      </div>
      <button type="button" onClick={() => void fetchPaper(api.dialCardUrl(name, { at, ...card }), `${name}, dial card.pdf`)}>
        Calibration card (PDF)
      </button>
      <h3>Dial scale at true size</h3>
      <div className="row">
        <Select
          label="Shape"
          value={shape.shape}
          onChange={(v) => setShape({ ...shape, shape: v })}
          options={[
            ["arc", "arc"],
            ["straight", "straight"],
          ]}
        />
        {shape.shape === "arc" ? (
          <>
            {text("radius", "Radius, mm")}
            {text("sweep", "Sweep")}
          </>
        ) : (
          text("length", "Length, mm")
        )}
        <Select
          label="Readings rise"
          value={shape.sense}
          onChange={(v) => setShape({ ...shape, sense: v })}
          options={[
            ["forward", shape.shape === "arc" ? "clockwise" : "to the right"],
            ["backward", shape.shape === "arc" ? "counterclockwise" : "to the left"],
          ]}
        />
        <Select
          label="Paper"
          value={shape.paper}
          onChange={(v) => setShape({ ...shape, paper: v })}
          options={["A4", "Letter"].map((s) => [s, s] as const)}
        />
        {text("measuredAcross", "Bar across measured, mm")}
        {text("measuredDown", "Bar down measured, mm")}
      </div>
      <p className="buttons">
        <button
          type="button"
          onClick={() =>
            void fetchPaper(
              api.dialScaleUrl(name, "pdf", { at, licence: card.licence, mode: card.mode, ...shape }),
              `${name}, dial scale.pdf`,
            )
          }
        >
          Scale (PDF)
        </button>
        <button
          type="button"
          className="plain"
          onClick={() =>
            void fetchPaper(
              api.dialScaleUrl(name, "svg", { at, licence: card.licence, mode: card.mode, ...shape }),
              `${name}, dial scale.svg`,
            )
          }
        >
          Scale (SVG)
        </button>
      </p>
      <p className="quiet">Print at 100 %. Measure both bars; if one is not 100 mm, type its length and print again.</p>
      <TaskLine of={task} />
    </Panel>
  );
}

import { Select } from "../parts";

/** What comes in and how it is heard, as typed. */
export interface SceneTyped {
  readonly scene: string;
  readonly neighbours: string;
  readonly carriers: string;
  readonly noise: string;
  readonly strength: string;
  readonly crashes: string;
  readonly fading: string;
  readonly speed: string;
  readonly avc: string;
  readonly avcDown: string;
  readonly avcUp: string;
}
export const usual: SceneTyped = {
  scene: "am",
  neighbours: "9 kHz, -10 dB",
  carriers: "3 kHz, -20 dB",
  noise: "",
  strength: "-73 dBm",
  crashes: "0",
  fading: "0 dB",
  speed: "20",
  avc: "on",
  avcDown: "50 ms",
  avcUp: "0.5 s",
};
interface SceneSaid {
  readonly scene: SceneTyped;
  readonly say: (key: keyof SceneTyped) => (text: string) => void;
  /** a recording takes the scene's place: how it is heard alone is asked */
  readonly own: boolean;
}
/** The scene and the detector. */
export const SceneFields = ({ scene, say, own }: SceneSaid) => {
  const field = (key: keyof SceneTyped, label: string, such = "") => (
    <label className="field">
      {label}
      <input value={scene[key] ?? ""} placeholder={such} onChange={(e) => say(key)(e.currentTarget.value)} />
    </label>
  );
  return (
    <div className="row">
      <Select
        label="Tuned to"
        value={scene.scene}
        onChange={say("scene")}
        options={[
          ["am", "an AM station"],
          ["ssb", "an SSB station"],
          ["cw", "a CW station"],
        ]}
      />
      {!own && (
        <>
          {field("neighbours", "Neighbours: how far off, how strong")}
          {field("carriers", "Whistles: how far off, how strong")}
          {field("strength", "The station at the antenna terminal")}
          {field("noise", "Noise under it, in 6 kHz", "as the sheet on sensitivity has it")}
          {field("crashes", "Crashes a second")}
          {field("fading", "Selective fading")}
          {scene.scene === "cw" && field("speed", "Words a minute")}
        </>
      )}
      <Select
        label="AVC"
        value={scene.avc}
        onChange={say("avc")}
        options={[
          ["on", "on"],
          ["off", "off, manual gain"],
        ]}
      />
      {scene.avc === "on" && field("avcDown", "It turns the gain down in")}
      {scene.avc === "on" && field("avcUp", "and up again in")}
    </div>
  );
};

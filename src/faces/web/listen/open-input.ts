import type { FromEar, ToEar } from "./messages";

/** A microphone or line input that was opened, with the worker that listens to it. */
export interface OpenInput {
  readonly label: string;
  readonly deviceId: string;
  readonly sampleRateHz: number;
  /** what is not as it was asked for, in words; empty where the browser says that all of it is off */
  readonly doubts: readonly string[];
  readonly tell: (m: ToEar) => void;
  readonly context: AudioContext;
  readonly close: () => void;
}
export interface InputHeard {
  readonly heard: (m: FromEar) => void;
  /** the input is gone, or went mute, or came back */
  readonly gone: (why: string) => void;
}
/** Why an input did not open, in words. */
export class NoInput extends Error {}

const processing = [
  ["echoCancellation", "echo cancellation"],
  ["autoGainControl", "automatic gain"],
  ["noiseSuppression", "noise suppression"],
] as const;
/**
 * What a browser does to the sound although it was asked not to, or does not say.
 *
 * @param settings as the track has them
 * @returns sentences, none where all of it is off
 */
export function doubtsOf(settings: Readonly<Record<string, unknown>>): string[] {
  const on = processing.filter(([key]) => settings[key] !== false && settings[key] !== undefined).map(([, says]) => says);
  const unsaid = processing.filter(([key]) => settings[key] === undefined).map(([, says]) => says);
  return [
    ...(on.length > 0
      ? [`This browser keeps ${on.join(" and ")} on, although it was asked not to: levels here are not to be trusted. Try another browser.`]
      : []),
    ...(unsaid.length > 0
      ? [`This browser doesn't say whether ${unsaid.join(" and ")} is off. Check: with a steady tone the level must hold still.`]
      : []),
  ];
}
const refusals: Readonly<Record<string, string>> = {
  NotAllowedError:
    "The browser was not allowed to listen. Allow the microphone for this page in the browser's address bar, then try again.",
  NotFoundError: "No input was found. Plug in the sound device, then try again.",
  NotReadableError: "The input can't be opened: another program has it, or its plug is loose.",
  OverconstrainedError: "The input that was chosen is gone. Choose another one.",
};
const noneHere =
  "This browser gives no input at this address. Open Fettle's page on its own machine: a browser lets a page listen only there, or at an https address.";

async function streamOf(deviceId: string): Promise<MediaStream> {
  if (!("mediaDevices" in navigator)) throw new NoInput(noneHere);
  const audio = {
    echoCancellation: false,
    autoGainControl: false,
    noiseSuppression: false,
    channelCount: { ideal: 2 },
    ...(deviceId === "" ? {} : { deviceId: { exact: deviceId } }),
  };
  try {
    return await navigator.mediaDevices.getUserMedia({ audio });
  } catch (e) {
    const name = e instanceof Error ? e.name : "";
    throw new NoInput(refusals[name] ?? `The input did not open (${name}).`);
  }
}

/** Inputs by name; names are known once one was opened. */
export async function inputs(): Promise<readonly (readonly [id: string, says: string])[]> {
  if (!("mediaDevices" in navigator)) return [];
  const all = (await navigator.mediaDevices.enumerateDevices()).filter((d) => d.kind === "audioinput" && d.deviceId !== "");
  return all.map((d, i) => [d.deviceId, d.label || `input ${i + 1}`] as const);
}

/**
 * Opens an input with all of the browser's processing asked off, and leads it to a worker.
 *
 * @param deviceId which; the browser's own choice where empty
 * @param to who is told what was heard, and when the input is gone
 * @throws {NoInput} in words
 */
export async function openInput(deviceId: string, to: InputHeard): Promise<OpenInput> {
  const stream = await streamOf(deviceId);
  const [track] = stream.getAudioTracks();
  const settings = track.getSettings();
  // at the device's own rate nothing is resampled
  const rate = settings.sampleRate;
  const context = new AudioContext({ latencyHint: "interactive", ...(rate ? { sampleRate: rate } : {}) });
  const worker = new Worker("ear-worker.js", { type: "module" });
  const close = (): void => {
    track.stop();
    worker.terminate();
    void context.close();
  };
  try {
    await context.audioWorklet.addModule("tap.js");
    await context.resume();
  } catch {
    close();
    throw new NoInput("This browser's audio did not start. Close other pages that use sound, then try again.");
  }
  const tap = new AudioWorkletNode(context, "tap");
  const { port1, port2 } = new MessageChannel();
  tap.port.postMessage(port1, [port1]);
  context.createMediaStreamSource(stream).connect(tap).connect(context.destination);
  worker.onmessage = (e: MessageEvent<FromEar>) => to.heard(e.data);
  track.addEventListener("ended", () => to.gone("The input is gone: its plug was pulled, or another program took it."));
  track.addEventListener("mute", () => to.gone("The input went mute: look at its switch, and at the system's sound settings."));
  track.addEventListener("unmute", () => to.gone(""));
  let port: MessagePort | undefined = port2;
  return {
    label: track.label,
    deviceId: settings.deviceId ?? deviceId,
    sampleRateHz: context.sampleRate,
    doubts: doubtsOf({ ...settings }),
    tell: (m) => {
      const first = m.is === "begin" ? port : undefined;
      if (first) port = undefined;
      worker.postMessage(first ? { ...m, port: first } : m, first ? [first] : []);
    },
    context,
    close,
  };
}

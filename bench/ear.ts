/** An hour of sound at 48 kHz through `note` and `hum`, by the processor's time, and the same in scientific Python in one run. */
import { spawnSync } from "node:child_process";
import { closeSync, createReadStream, mkdtempSync, openSync, rmSync, statSync, writeFileSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Hum } from "../src/readings/sound/hum";
import { listen } from "../src/readings/sound/listen";
import type { Listener } from "../src/readings/sound/listener";
import { highestHz, Note } from "../src/readings/sound/note";
import { openSound } from "../src/readings/sound/open-sound";
import { orThrow } from "../src/units/issue";

const rate = 48_000;
const minutes = 60;
const folder = mkdtempSync(join(tmpdir(), "ear-"));
const path = join(folder, "hour.wav");
/** A note that warms up over hum and noise, invented. */
function invent(): void {
  const head = Buffer.alloc(44);
  head.write("RIFF", 0);
  head.writeUInt32LE(36 + 2 * rate * 60 * minutes, 4);
  head.write("WAVEfmt ", 8);
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(rate, 24);
  head.writeUInt32LE(2 * rate, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write("data", 36);
  head.writeUInt32LE(2 * rate * 60 * minutes, 40);
  writeFileSync(path, head);
  const file = openSync(path, "a");
  let phase = 0;
  let noise = 1;
  const second = new Int16Array(rate);
  for (let s = 0; s < 60 * minutes; s++) {
    for (let i = 0; i < rate; i++) {
      const t = s + i / rate;
      phase += (2 * Math.PI * (1000 + 20 * Math.exp(-t / 600))) / rate;
      noise = (Math.imul(noise, 1664525) + 1013904223) | 0;
      second[i] =
        6500 * Math.sin(phase) +
        330 * Math.sin(2 * Math.PI * 120.02 * t) +
        130 * Math.sin(2 * Math.PI * 60.01 * t) +
        600 * (noise / 2 ** 31);
    }
    writeSync(file, new Uint8Array(second.buffer));
  }
  closeSync(file);
}
async function spent(make: () => Listener): Promise<number> {
  const { user, system } = process.cpuUsage();
  const sound = orThrow(await openSound(createReadStream(path, { highWaterMark: 256 * 1024 }), "hour", statSync(path).size));
  orThrow(await listen(sound, "hour", [make()]));
  const now = process.cpuUsage();
  return (now.user - user + now.system - system) / 1e6;
}
invent();
const note = await spent(() => new Note(rate, { everyS: 1, range: { fromHz: 20, toHz: highestHz } }));
const hum = await spent(() => new Hum(rate));
const memory = process.resourceUsage().maxRSS / 1024;
console.log(`an hour at 48 kHz: note ${note.toFixed(1)} s, hum ${hum.toFixed(1)} s of the processor, ${memory.toFixed(0)} MB at most`);
const python = spawnSync("python3", ["-W", "ignore", join("bench", "ear.py"), "hour", path], {
  encoding: "utf8",
  env: { ...process.env, OMP_NUM_THREADS: "1" },
});
if (python.status !== 0) console.log("  skipped: Python with scipy is not here");
else {
  const { scipy, seconds } = JSON.parse(python.stdout);
  console.log(
    `  scipy ${scipy}, strongest tone each second and Welch's lines: ${seconds.toFixed(1)} s; this project takes ${((note + hum) / seconds).toFixed(1)} times that, reading the file twice`,
  );
}
rmSync(folder, { recursive: true });

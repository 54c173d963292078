import type { OpenTransport } from "../../../instruments/wire";

/** A serial port as a browser gives it. Source: Web Serial API, WICG draft. */
export interface SerialPortOfBrowser {
  readonly readable: ReadableStream<Uint8Array> | null;
  readonly writable: WritableStream<Uint8Array> | null;
  readonly open: (how: { readonly baudRate: number }) => Promise<void>;
  readonly close: () => Promise<void>;
}
interface SerialOfBrowser {
  readonly requestPort: () => Promise<SerialPortOfBrowser>;
}
/** What this browser has of serial ports; nothing where it has none, or may not use them. */
export const serial = (): SerialOfBrowser | undefined => (navigator as Navigator & { readonly serial?: SerialOfBrowser }).serial;

/**
 * A lead over a serial port.
 *
 * @param port that the person chose
 * @param baudRate bits a second
 */
export const overSerial =
  (port: SerialPortOfBrowser, baudRate: number): OpenTransport =>
  async (hears) => {
    await port.open({ baudRate });
    const reader = port.readable?.getReader();
    const writer = port.writable?.getWriter();
    if (!reader || !writer) throw new Error("the port can't be read and written");
    let closed = false;
    const listen = async (): Promise<void> => {
      try {
        for (;;) {
          const { value, done } = await reader.read();
          if (done) break;
          hears.bytes(value);
        }
        if (!closed) hears.ended("the port was closed");
      } catch {
        if (!closed) hears.ended("the cable was pulled, or the instrument switched off");
      }
    };
    const listening = listen();
    return {
      write: (bytes) => writer.write(bytes),
      close: async () => {
        if (closed) return;
        closed = true;
        await reader.cancel().catch(() => undefined);
        await listening;
        reader.releaseLock();
        writer.releaseLock();
        await port.close().catch(() => undefined);
      },
    };
  };

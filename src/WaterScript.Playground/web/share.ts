// A site in the fragment of an address, which browsers keep to themselves: packed, so that it stays short enough to be sent.
import type { SiteText } from "./compiler";

const form = "1.";
const mostBytes = 4_000_000;
const path = /^[\p{L}\p{N}_-][\p{L}\p{N}_. -]*(\/[\p{L}\p{N}_-][\p{L}\p{N}_. -]*)*$/u;

const through = async (bytes: Uint8Array, stream: CompressionStream | DecompressionStream): Promise<Uint8Array> => {
  const reader = new Blob([bytes as BlobPart]).stream().pipeThrough(stream as unknown as ReadableWritablePair<Uint8Array, Uint8Array>).getReader();
  const parts: Uint8Array[] = [];
  let length = 0;
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    length += part.value.length;
    // A few bytes can unpack to any number.
    if (length > mostBytes) throw new Error("too large");
    parts.push(part.value);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
};

/** The fragment of a site, without the number sign. */
export const pack = async (site: SiteText): Promise<string> => {
  const packed = await through(new TextEncoder().encode(JSON.stringify([site.root, site.files])), new CompressionStream("deflate-raw"));
  let letters = "";
  for (const byte of packed) letters += String.fromCharCode(byte);
  return form + btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
};

/** The site of a fragment; null where it holds none. */
export const unpack = async (fragment: string): Promise<SiteText | null> => {
  if (!fragment.startsWith(form)) return null;
  try {
    const letters = atob(fragment.slice(form.length).replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = await through(Uint8Array.from(letters, (letter) => letter.charCodeAt(0)), new DecompressionStream("deflate-raw"));
    const read: unknown = JSON.parse(new TextDecoder().decode(bytes));
    return isSite(read) ? { root: read[0], files: read[1] } : null;
  } catch {
    return null;
  }
};

const isSite = (read: unknown): read is [string, Record<string, string>] => {
  if (!Array.isArray(read) || read.length !== 2) return false;
  const [root, files] = read as unknown[];
  if (typeof root !== "string" || typeof files !== "object" || files === null || !Object.hasOwn(files, root)) return false;
  return Object.entries(files).every(([name, text]) => path.test(name) && typeof text === "string");
};

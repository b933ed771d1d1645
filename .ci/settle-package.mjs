// Writes a NuGet package again so that its bytes depend on nothing but what is in it: entries in order of name, one date, one compression.
// settle-package.mjs PACKAGE EPOCH
import { readFileSync, writeFileSync } from "node:fs";
import { deflateRawSync, inflateRawSync } from "node:zlib";

const [file, epoch] = process.argv.slice(2);
const bytes = readFileSync(file);
const date = new Date(Number(epoch) * 1000);
const dosTime = (date.getUTCHours() << 11) | (date.getUTCMinutes() << 5) | (date.getUTCSeconds() >> 1);
const dosDate = ((date.getUTCFullYear() - 1980) << 9) | ((date.getUTCMonth() + 1) << 5) | date.getUTCDate();

// Entries by the central directory (APPNOTE.TXT 4.3.12), whose sizes are always there.
const entries = [];
let end = bytes.length - 22;
while (end >= 0 && bytes.readUInt32LE(end) !== 0x06054b50) end--;
if (end < 0) throw new Error(`${file} is not a package`);
let at = bytes.readUInt32LE(end + 16);
for (let i = bytes.readUInt16LE(end + 10); i > 0; i--) {
  const method = bytes.readUInt16LE(at + 10);
  const size = bytes.readUInt32LE(at + 20);
  const nameLength = bytes.readUInt16LE(at + 28);
  const local = bytes.readUInt32LE(at + 42);
  const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
  const stored = bytes.subarray(start, start + size);
  const name = bytes.subarray(at + 46, at + 46 + nameLength).toString("utf8");
  entries.push({ name, mode: bytes.readUInt32LE(at + 38), content: settled(name, method === 8 ? inflateRawSync(stored) : stored) });
  at += 46 + nameLength + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
}
entries.sort((one, other) => (one.name < other.name ? -1 : 1));

// A commit is the same on any branch, and on none.
function settled(name, content) {
  if (!name.endsWith(".nuspec")) return content;
  return Buffer.from(content.toString("utf8").replace(/(<repository\b[^>]*?) branch="[^"]*"/, "$1"), "utf8");
}

// The sum of APPNOTE.TXT 4.4.7, by the table of its polynomial.
const table = Uint32Array.from({ length: 256 }, (_, start) => {
  let value = start;
  for (let bit = 0; bit < 8; bit++) value = value & 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});
const crc32 = (content) => {
  let sum = 0xffffffff;
  for (const byte of content) sum = table[(sum ^ byte) & 0xff] ^ (sum >>> 8);
  return (sum ^ 0xffffffff) >>> 0;
};

const parts = [];
const directory = [];
let offset = 0;
for (const { name, mode, content } of entries) {
  const label = Buffer.from(name, "utf8");
  const packed = deflateRawSync(content, { level: 9 });
  const head = Buffer.alloc(26);
  [20, 0x0800, 8, dosTime, dosDate].forEach((value, i) => head.writeUInt16LE(value, i * 2));
  head.writeUInt32LE(crc32(content), 10);
  head.writeUInt32LE(packed.length, 14);
  head.writeUInt32LE(content.length, 18);
  head.writeUInt16LE(label.length, 22);
  parts.push(Buffer.from("PK\x03\x04", "latin1"), head, label, packed);
  const tail = Buffer.alloc(14);
  tail.writeUInt32LE(mode, 6);
  tail.writeUInt32LE(offset, 10);
  directory.push(Buffer.from("PK\x01\x02\x14\x03", "latin1"), head, tail, label);
  offset += 30 + label.length + packed.length;
}
const listed = Buffer.concat(directory);
const last = Buffer.alloc(22);
last.writeUInt32LE(0x06054b50, 0);
last.writeUInt16LE(entries.length, 8);
last.writeUInt16LE(entries.length, 10);
last.writeUInt32LE(listed.length, 12);
last.writeUInt32LE(offset, 16);
writeFileSync(file, Buffer.concat([...parts, listed, last]));

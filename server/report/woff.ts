import { inflateSync } from 'node:zlib';

const WOFF_SIGNATURE = 0x774f4646;
const WOFF_HEADER_BYTES = 44;
const WOFF_ENTRY_BYTES = 20;
const SFNT_HEADER_BYTES = 12;
const SFNT_ENTRY_BYTES = 16;

/** A file that is not a font in the Web Open Font Format. */
export class NotWoffError extends Error {
  override name = 'NotWoffError';
}

/**
 * Unpacks a font once, where a document would unpack each of its tables again and again. W3C, WOFF File Format 1.0,
 * sections 3 to 5: a header, a directory, and tables that are compressed where that makes them shorter.
 * @returns the same font as plain SFNT (TrueType, OpenType)
 * @throws {NotWoffError}
 */
export function unpackWoff(woff: Buffer): Buffer {
  if (woff.length < WOFF_HEADER_BYTES || woff.readUInt32BE(0) !== WOFF_SIGNATURE) {
    throw new NotWoffError('A font must begin with the signature wOFF.');
  }
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, nth) => tableOf(woff, WOFF_HEADER_BYTES + nth * WOFF_ENTRY_BYTES));
  const head = Buffer.alloc(SFNT_HEADER_BYTES + count * SFNT_ENTRY_BYTES);
  head.writeUInt32BE(woff.readUInt32BE(4), 0);
  head.writeUInt16BE(count, 4);
  // Search range, entry selector and range shift, as the OpenType specification derives them from the count.
  const power = Math.floor(Math.log2(count));
  head.writeUInt16BE(2 ** power * SFNT_ENTRY_BYTES, 6);
  head.writeUInt16BE(power, 8);
  head.writeUInt16BE((count - 2 ** power) * SFNT_ENTRY_BYTES, 10);
  let offset = head.length;
  tables.forEach(({ tag, checksum, data }, nth) => {
    const at = SFNT_HEADER_BYTES + nth * SFNT_ENTRY_BYTES;
    head.writeUInt32BE(tag, at);
    head.writeUInt32BE(checksum, at + 4);
    head.writeUInt32BE(offset, at + 8);
    head.writeUInt32BE(data.length, at + 12);
    offset += padded(data.length);
  });
  return Buffer.concat([head, ...tables.map(({ data }) => Buffer.concat([data], padded(data.length)))]);
}

function tableOf(woff: Buffer, at: number): { tag: number; checksum: number; data: Buffer } {
  const offset = woff.readUInt32BE(at + 4);
  const packedBytes = woff.readUInt32BE(at + 8);
  const bytes = woff.readUInt32BE(at + 12);
  const stored = woff.subarray(offset, offset + packedBytes);
  const data = packedBytes < bytes ? inflateSync(stored) : Buffer.from(stored);
  return { tag: woff.readUInt32BE(at), checksum: woff.readUInt32BE(at + 16), data };
}

/** Tables begin at multiples of four bytes. */
function padded(bytes: number): number {
  return Math.ceil(bytes / 4) * 4;
}

// Bytes of a file to text: UTF-8 with or without a byte order mark, strictly. Anything else is refused with its place.
// Runs the same in Node and in the browser. RULES: PL1.

/** What core needs of the decoder that Node and browsers both have; core has neither's types. */
declare const TextDecoder: {
  new (label: 'utf-8', options: { fatal: true; ignoreBOM: false }): { decode(bytes: Uint8Array): string };
};

/** The text, or the offset of the first byte that is not UTF-8, or that the bytes are UTF-16 or UTF-32. */
export type Decoded =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly why: 'utf-16' }
  | { readonly ok: false; readonly why: 'invalid'; readonly offset: number };

/** Decodes strict UTF-8; a byte order mark at the start is left out of the text. Never throws. */
export function decodeUtf8(bytes: Uint8Array): Decoded {
  const [a, b, c, d] = bytes;
  const marked = (a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff);
  // JSON begins with a character below U+0080, so zero bytes beside it tell of 16 or 32 bits a character.
  // A file of nothing but zeros, as a crash may leave it, is not that.
  const wide =
    bytes.length >= 2 && ((a === 0) !== (b === 0) || (a === 0 && c === 0 && d !== undefined && d !== 0));
  if (marked || wide) return { ok: false, why: 'utf-16' };
  try {
    return { ok: true, text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: false }).decode(bytes) };
  } catch (error) {
    // The decoder says that something is wrong, and not where.
    const offset = firstInvalidByte(bytes);
    if (offset === null) throw error;
    return { ok: false, why: 'invalid', offset };
  }
}

/**
 * The offset of the first byte of the first sequence that is not well-formed UTF-8, or null.
 * Source: The Unicode Standard, table 3-7, well-formed UTF-8 byte sequences.
 */
export function firstInvalidByte(bytes: Uint8Array): number | null {
  const within = (at: number, low: number, high: number): boolean => {
    const byte = bytes[at];
    return byte !== undefined && byte >= low && byte <= high;
  };
  let at = 0;
  while (at < bytes.length) {
    const first = bytes[at]!;
    if (first < 0x80) {
      at++;
      continue;
    }
    const length =
      first >= 0xc2 && first <= 0xdf
        ? 2
        : first >= 0xe0 && first <= 0xef
          ? 3
          : first >= 0xf0 && first <= 0xf4
            ? 4
            : 0;
    if (length === 0) return at;
    const low = first === 0xe0 ? 0xa0 : first === 0xf0 ? 0x90 : 0x80;
    const high = first === 0xed ? 0x9f : first === 0xf4 ? 0x8f : 0xbf;
    if (!within(at + 1, low, high)) return at;
    for (let k = 2; k < length; k++) if (!within(at + k, 0x80, 0xbf)) return at;
    at += length;
  }
  return null;
}

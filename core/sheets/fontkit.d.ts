// The little of fontkit that the sheets use; the package brings no types of its own.

declare module 'fontkit' {
  export interface Glyph {
    readonly advanceWidth: number;
    readonly bbox: {
      readonly minX: number;
      readonly minY: number;
      readonly maxX: number;
      readonly maxY: number;
    };
  }
  export interface GlyphRun {
    readonly glyphs: readonly Glyph[];
    readonly positions: readonly Readonly<Record<string, number>>[];
    readonly advanceWidth: number;
  }
  export interface Font {
    readonly unitsPerEm: number;
    readonly ascent: number;
    readonly descent: number;
    readonly capHeight: number;
    readonly xHeight: number;
    layout: (text: string, features?: readonly string[]) => GlyphRun;
    hasGlyphForCodePoint(codePoint: number): boolean;
  }
  /** Opens a font from the bytes of a whole TTF. */
  export function create(bytes: Uint8Array): Font;
}

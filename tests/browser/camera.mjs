// What a camera reads off a screen: the code in a screenshot.

import jsqr from "jsqr";
import { PNG } from "pngjs";

const read = jsqr.default ?? jsqr;

/** The text of the code in `picture`, a PNG. */
export function seen(picture) {
  const { data, width, height } = PNG.sync.read(picture);
  return read(new Uint8ClampedArray(data), width, height)?.data ?? "no code that could be read";
}

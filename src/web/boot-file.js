// Starts the lesson's file, which holds all that the page needs: program, style and glue are one
// compressed stream, written as text in the last element of the page. No other file is read.
{
  // A character of that text is a digit to base 91: what a keyboard types without blanks, and
  // without "<", "&" and "\", which HTML or a program that handles the file could take for more.
  const NO_DIGIT = 255;
  const DIGITS = new Uint8Array(127).fill(NO_DIGIT);
  let next = 0;
  for (let code = 33; code < 127; code += 1) {
    if (!"<&\\".includes(String.fromCharCode(code))) DIGITS[code] = next++;
  }

  /** The bytes of `text`: two digits, the higher first, are 13 bits; the lowest bits come first. */
  const unpack = (text, length) => {
    const bytes = new Uint8Array(length);
    let [at, held, bits, high] = [0, 0, 0, NO_DIGIT];
    for (let i = 0; i < text.length && at < length; i += 1) {
      const digit = DIGITS[text.charCodeAt(i)] ?? NO_DIGIT;
      if (digit === NO_DIGIT) continue; // The end of a line.
      if (high === NO_DIGIT) {
        high = digit;
        continue;
      }
      held |= (high * 91 + digit) << bits;
      high = NO_DIGIT;
      for (bits += 13; bits > 7; bits -= 8) {
        bytes[at++] = held & 255; // Past the end nothing is written.
        held >>>= 8;
      }
    }
    if (at < length) throw new Error(`This file is not whole: ${at} of ${length} bytes are there.`);
    return bytes;
  };

  /** What was compressed; rejects if it is damaged, for the stream ends with a checksum. */
  const inflate = (bytes) => {
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Response(stream).arrayBuffer();
  };

  /** Puts `text` into the head as a style or a script; the page's policy knows its digest. */
  const put = (name, text) => {
    const element = document.createElement(name);
    element.textContent = text;
    document.head.appendChild(element);
  };

  const start = async () => {
    const packed = document.getElementById("packed");
    const inside = await inflate(unpack(packed.textContent, Number(packed.dataset.bytes)));
    const sizes = packed.dataset.parts.split(" ").map(Number);
    const starts = sizes.map((_, i) => sizes.slice(0, i).reduce((sum, size) => sum + size, 0));
    const [wasm, style, glue] = sizes.map((size, i) => new Uint8Array(inside, starts[i], size));
    const written = new TextDecoder();
    put("style", written.decode(style));
    put("script", written.decode(glue));
    await window.startEvenkeel({ module_or_path: wasm });
  };

  // The stream stands below this script, so that a file cut short still says what is wrong.
  document.addEventListener("DOMContentLoaded", () => {
    start().then(
      () => {
        document.documentElement.dataset.boot = "started";
      },
      (error) => {
        console.error(error);
        window.cannotStart();
      },
    );
  });
}

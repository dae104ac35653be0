// Starts the lesson's file, which holds all that the page needs: program and glue are one compressed
// stream, written as text in the last element of the page. No other file is read.
//
// The stream is compressed by LZMA, as its public specification (LZMA SDK, lzma-specification.txt)
// describes it: a fifth smaller than what browsers can inflate by themselves.
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

  /** The `size` bytes that `packed` was compressed from. */
  const decompress = (packed, size) => {
    const out = new Uint8Array(size);
    const [lc, lp, pb] = [packed[0] % 9, Math.floor(packed[0] / 9) % 5, Math.floor(packed[0] / 45)];
    // The range coder: 13 bytes of header and one that is 0 stand before its first four.
    let at = 18;
    let code = new DataView(packed.buffer).getUint32(14);
    let range = 0xffffffff;
    const refill = () => {
      if (range < 0x1000000) {
        range = (range << 8) >>> 0;
        code = ((code << 8) | packed[at++]) >>> 0;
      }
    };
    // Every probability that a bit is 0, of 2048, one model after the other.
    const [IS_MATCH, IS_REP, IS_REP0_LONG, SLOT, SPECIAL, ALIGN, LENGTH, REP_LENGTH, LITERAL] = [0, 192, 240, 432, 688, 816, 832, 1346, 1860];
    const chances = new Uint16Array(LITERAL + (0x300 << (lc + lp))).fill(1024);
    const bit = (model) => {
      const chance = chances[model];
      const bound = (range >>> 11) * chance;
      const one = code >= bound;
      if (one) {
        range -= bound;
        code -= bound;
        chances[model] = chance - (chance >> 5);
      } else {
        range = bound;
        chances[model] = chance + ((2048 - chance) >> 5);
      }
      refill();
      return one ? 1 : 0;
    };
    const tree = (model, bits) => {
      let node = 1;
      for (let i = 0; i < bits; i += 1) node = (node << 1) | bit(model + node);
      return node - (1 << bits);
    };
    const reversed = (model, bits) => {
      let [node, value] = [1, 0];
      for (let i = 0; i < bits; i += 1) {
        const one = bit(model + node);
        node = (node << 1) | one;
        value |= one << i;
      }
      return value;
    };
    const plain = (bits) => {
      let value = 0;
      for (let i = 0; i < bits; i += 1) {
        range >>>= 1;
        const one = code >= range;
        if (one) code -= range;
        value = (value << 1) | (one ? 1 : 0);
        refill();
      }
      return value;
    };
    const lengthOf = (model, turn) => {
      if (!bit(model)) return tree(model + 2 + turn * 8, 3);
      if (!bit(model + 1)) return 8 + tree(model + 130 + turn * 8, 3);
      return 16 + tree(model + 258, 8);
    };
    const distanceOf = (length) => {
      const slot = tree(SLOT + Math.min(length, 3) * 64, 6);
      if (slot < 4) return slot;
      const bits = (slot >> 1) - 1;
      const base = (2 | (slot & 1)) << bits;
      if (slot < 14) return base + reversed(SPECIAL + base - slot, bits);
      return (base + (plain(bits - 4) << 4) + reversed(ALIGN, 4)) >>> 0;
    };

    let [state, done] = [0, 0];
    let back = [0, 0, 0, 0]; // The last distances, less one, the latest first.
    while (done < size) {
      const turn = done & ((1 << pb) - 1);
      if (!bit(IS_MATCH + state * 16 + turn)) {
        const before = done > 0 ? out[done - 1] : 0;
        const model = LITERAL + 0x300 * (((done & ((1 << lp) - 1)) << lc) + (before >> (8 - lc)));
        let node = 1;
        if (state > 6) {
          // What stands where a match would go on is a guess at each bit, until it fails.
          for (let guess = out[done - back[0] - 1], same = true; same && node < 256; guess <<= 1) {
            const guessed = (guess >> 7) & 1;
            const one = bit(model + ((1 + guessed) << 8) + node);
            node = (node << 1) | one;
            same = one === guessed;
          }
        }
        while (node < 256) node = (node << 1) | bit(model + node);
        out[done++] = node;
        state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
        continue;
      }
      let length = 0;
      if (!bit(IS_REP + state)) {
        length = lengthOf(LENGTH, turn) + 2;
        back = [distanceOf(length - 2), back[0], back[1], back[2]];
        state = state < 7 ? 7 : 10;
      } else {
        let which = 0;
        if (!bit(IS_REP + 12 + state)) {
          if (!bit(IS_REP0_LONG + state * 16 + turn)) length = 1;
        } else {
          which = !bit(IS_REP + 24 + state) ? 1 : 2 + bit(IS_REP + 36 + state);
        }
        back = [back[which], ...back.filter((_, i) => i !== which)];
        state = length ? (state < 7 ? 9 : 11) : state < 7 ? 8 : 11;
        length ||= lengthOf(REP_LENGTH, turn) + 2;
      }
      if (back[0] >= done) throw new Error("This file is damaged.");
      for (const end = Math.min(done + length, size); done < end; done += 1) out[done] = out[done - back[0] - 1];
    }
    return out;
  };

  /** Adler-32 of `bytes` (RFC 1950): a changed character must not become a wrong number. */
  const checksum = (bytes) => {
    let [a, b] = [1, 0];
    for (const byte of bytes) {
      a = (a + byte) % 65521;
      b = (b + a) % 65521;
    }
    return b * 65536 + a;
  };

  const start = async () => {
    const packed = document.getElementById("packed");
    const sizes = packed.dataset.parts.split(" ").map(Number);
    const inside = decompress(unpack(packed.textContent, Number(packed.dataset.bytes)), sizes[0] + sizes[1]);
    if (checksum(inside) !== Number(packed.dataset.checksum)) throw new Error("This file is damaged.");
    const [program, glue] = [inside.subarray(0, sizes[0]), inside.subarray(sizes[0])];
    // The page's policy knows the digest of this one script, and runs no other.
    const same = { createScript: (text) => text };
    const rules = window.trustedTypes?.createPolicy("program", same) ?? same;
    const script = document.createElement("script");
    script.textContent = rules.createScript(new TextDecoder().decode(glue));
    document.head.appendChild(script);
    await window.startEvenkeel({ module_or_path: program });
  };

  // The stream stands below this script, so that a file cut short still says what is wrong.
  document.addEventListener("DOMContentLoaded", () => {
    start().then(
      () => {
        document.documentElement.dataset.boot = "started";
      },
      (error) => {
        console.error(error);
        if (!window.programFailed(error)) window.cannotStart();
      },
    );
  });
}

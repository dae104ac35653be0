// How long the page takes to show what was done.

/**
 * Runs in the page: waits for three frames in which nothing has another size. An addition's pH is in
 * the first frame, all words in the second, the particles in the third; and what a change of media, of
 * the window or of a part brings about comes frame after frame too: other controls, then a canvas of
 * another height, then its picture.
 */
export async function shown() {
  const sizes = () => {
    const { width, height, clientWidth, clientHeight } = document.querySelector("canvas[role=img]") ?? {};
    const { scrollWidth, scrollHeight } = document.documentElement;
    return [width, height, clientWidth, clientHeight, scrollWidth, scrollHeight].join();
  };
  let before = sizes();
  for (let same = 0; same < 3; ) {
    await new Promise((done) => requestAnimationFrame(() => done()));
    const now = sizes();
    same = now === before ? same + 1 : 0;
    before = now;
  }
}

import "server-only";

const lanes: Promise<unknown>[] = [Promise.resolve(), Promise.resolve()];
let turn = 0;

/** Does work with a photo, of two at a time in this process: decoding one takes several times its size. */
export function twoAtATime<T>(work: () => Promise<T>): Promise<T> {
  const lane = turn++ % lanes.length;
  const done = Promise.resolve(lanes[lane]).then(work);
  lanes[lane] = done.catch(() => {});
  return done;
}

/** Printing what a command does, as it does it. */

const seconds = (since) => `${((Date.now() - since) / 1000).toFixed(1)} s`;

/**
 * Says what is being done, does it, and says how long it took.
 *
 * @template T
 * @param {string} what as a reader would say it: "build the app"
 * @param {() => T | Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(what, work) {
  const began = Date.now();
  console.log(`- ${what} ...`);
  const result = await work();
  console.log(`  done in ${seconds(began)}`);
  return result;
}

/** What a person can put right: printed as it is, without a stack trace. */
export class Trouble extends Error {}

/** Runs a command's main function; a Trouble is printed plainly and ends the process with 1. */
export async function main(work) {
  try {
    await work();
  } catch (error) {
    console.error(error instanceof Trouble ? `\n${error.message}` : error);
    process.exitCode = 1;
  }
}

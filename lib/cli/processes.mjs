import { spawn } from "node:child_process";
import net from "node:net";
import { fileURLToPath, pathToFileURL } from "node:url";
import { Trouble } from "./steps.mjs";

export const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const END_WITH_PARENT = pathToFileURL(fileURLToPath(new URL("./end-with-parent.mjs", import.meta.url))).href;

/** Node's arguments that run a TypeScript file of ours as the server would. */
export const typescript = (file, ...args) => ["--conditions=react-server", "--import", "tsx", file, ...args];

/** Node's arguments that run Next. */
export const next = (...args) => ["node_modules/next/dist/bin/next", ...args];

/**
 * Runs a program to its end.
 *
 * @param {string} command
 * @param {string[]} args
 * @param {{ env?: Record<string, string | undefined>, quiet?: boolean, failure?: string }} options quiet: print the output only
 *   if it fails
 * @throws Trouble when it ends with anything but 0
 */
export async function run(command, args, { env = process.env, quiet = false, failure } = {}) {
  const { code, output } = await attempt(command, args, { env, quiet });
  if (code === 0) return output;
  if (quiet) process.stdout.write(output);
  throw new Trouble(failure ?? `${command} ${args.join(" ")} ended with ${code}`);
}

/**
 * Runs a program to its end and tells how it ended.
 *
 * @param {string} command
 * @param {string[]} args
 * @param {{ env?: Record<string, string | undefined>, quiet?: boolean }} options
 * @returns {Promise<{ code: number | string, output: string }>} code: the exit code or the signal; output: empty unless quiet
 */
export function attempt(command, args, { env = process.env, quiet = false } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd: ROOT, env, stdio: ["ignore", quiet ? "pipe" : "inherit", quiet ? "pipe" : "inherit"], shell: process.platform === "win32" && command === "npm" });
    const endWithUs = () => child.kill();
    process.once("exit", endWithUs);
    let output = "";
    const keep = (chunk) => {
      output += chunk;
    };
    child.stdout?.on("data", keep);
    child.stderr?.on("data", keep);
    child.on("error", (error) => resolve({ code: -1, output: String(error) }));
    child.on("close", (code, signal) => {
      process.off("exit", endWithUs);
      resolve({ code: code ?? signal, output });
    });
  });
}

/**
 * Starts a Node process of ours that is to go on running. It ends when this process ends, however that came about.
 *
 * @param {string} name for messages
 * @param {string[]} args Node's
 * @param {Record<string, string | undefined>} env
 * @param {{ print?: boolean }} options whether to pass on what it prints
 */
export function startService(name, args, env, { print = true } = {}) {
  const nodeOptions = [process.env.NODE_OPTIONS, `--import=${END_WITH_PARENT}`].filter(Boolean).join(" ");
  const child = spawn(process.execPath, args, {
    cwd: ROOT,
    env: { ...env, NODE_OPTIONS: nodeOptions },
    stdio: ["ignore", print ? "inherit" : "pipe", print ? "inherit" : "pipe", "ipc"],
    // Its own group: Ctrl-C reaches this process only, which then stops its services in order.
    detached: process.platform !== "win32",
  });
  let output = "";
  const keep = (chunk) => {
    output = (output + chunk).slice(-20_000);
  };
  child.stdout?.on("data", keep);
  child.stderr?.on("data", keep);
  /** @type {Promise<string>} */
  const ended = new Promise((resolve) => {
    child.on("error", (error) => resolve(String(error)));
    child.on("exit", (code, signal) => resolve(`${name} ended with ${code ?? signal}`));
  });
  return {
    name,
    ended,
    output: () => output,
    async stop() {
      if (child.exitCode !== null || child.signalCode !== null) return;
      child.kill("SIGTERM");
      const hard = setTimeout(() => child.kill("SIGKILL"), 8000);
      await ended;
      clearTimeout(hard);
    },
  };
}

/** Whether nobody listens on a port of this machine. */
export function isFree(port) {
  return new Promise((resolve) => {
    const server = net.createServer();
    server.once("error", () => resolve(false));
    server.listen(port, "127.0.0.1", () => server.close(() => resolve(true)));
  });
}

/** A port nobody listens on, chosen by the system. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/**
 * Waits until an address answers with 200.
 *
 * @throws Trouble when it does not within the time, or when `ended` comes first
 */
export async function untilAnswers(address, service, patienceMs = 60_000) {
  const until = Date.now() + patienceMs;
  let dead;
  service.ended.then((message) => {
    dead = message;
  });
  while (Date.now() < until) {
    if (dead) throw new Trouble(`${dead}\n${service.output()}`);
    const answer = await fetch(address, { signal: AbortSignal.timeout(5000) }).catch(() => undefined);
    if (answer?.ok) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Trouble(`${address} did not answer within ${patienceMs / 1000} s\n${service.output()}`);
}

/**
 * Loaded before the program (`node --import`): its disk fails, or the whole program is killed, at one call chosen by
 * number, and its clock goes wrong. What is to happen comes as JSON in FAULTS, see `faulty-disk.ts`. Plain JavaScript,
 * since Node runs it as it stands. Worker threads load it too and count together.
 */
import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import { open } from 'node:fs/promises';
import { syncBuiltinESMExports } from 'node:module';
import { dirname, resolve } from 'node:path';
import { getEnvironmentData, isMainThread, setEnvironmentData } from 'node:worker_threads';

const { disk, clock } = JSON.parse(process.env.FAULTS ?? '{}');

/** Calls counted so far, and whether the fault has been. */
const shared = new Int32Array(getEnvironmentData('faults') ?? new SharedArrayBuffer(8));
if (isMainThread) setEnvironmentData('faults', shared.buffer);

const ofWriting = new Set(
  'mkdir rename rm rmdir unlink link symlink copyFile cp writeFile appendFile write writev sync datasync fsync truncate ftruncate mkdtemp utimes chmod'.split(
    ' ',
  ),
);
const ofReading = new Set(
  'open opendir readdir lstat stat readFile access readlink realpath read'.split(' '),
);

const plain = { ...fs };
/** Paths of opened files, by descriptor. */
const opened = new Map();

const words = {
  ENOSPC: 'no space left on device',
  EDQUOT: 'disk quota exceeded',
  EIO: 'i/o error',
  EMFILE: 'too many open files',
  EROFS: 'read-only file system',
  EACCES: 'permission denied',
  EPERM: 'operation not permitted',
  EBUSY: 'resource busy or locked',
};
const numbers = {
  ENOSPC: -28,
  EDQUOT: -122,
  EIO: -5,
  EMFILE: -24,
  EROFS: -30,
  EACCES: -13,
  EPERM: -1,
  EBUSY: -16,
};
const failed = (code, call, path) =>
  Object.assign(new Error(`${code}: ${words[code]}, ${call} '${path}'`), {
    code,
    errno: numbers[code],
    syscall: call,
    path,
  });

const textOf = (path) => {
  if (path instanceof URL) return path.pathname;
  return typeof path === 'string' || path instanceof Uint8Array ? resolve(String(path)) : undefined;
};
const isWatched = (path) =>
  path !== undefined && disk.watch.some((place) => path.startsWith(place) || path === dirname(place));

const forWriting = (flags) => (typeof flags === 'string' ? /[wa+x]/.test(flags) : ((flags ?? 0) & 3) !== 0);

/** Whether this call is one of those that are counted. */
function counts(call, args) {
  const writes = ofWriting.has(call) || (call === 'open' && forWriting(args[1]));
  if (disk.calls === 'writing') return writes;
  if (disk.calls === 'opening') return call === 'open' || call === 'opendir' || call === 'readdir';
  return writes || ofReading.has(call);
}

const isWrite = (call) => /^(write|appendFile)/.test(call);

/** As a disk that fills: half of what is written goes out. */
function writeHalf(call, args, fd) {
  const bytes = call === 'write' ? args.find((a) => ArrayBuffer.isView(a) || typeof a === 'string') : args[0];
  if (fd === undefined || (typeof bytes !== 'string' && !ArrayBuffer.isView(bytes))) return;
  const all = Buffer.from(
    typeof bytes === 'string' ? bytes : new Uint8Array(bytes.buffer, bytes.byteOffset, bytes.byteLength),
  );
  if (all.length > 1) plain.writeSync(fd, all.subarray(0, all.length >> 1));
}

/** Called before each call; throws, or ends the program, where it is that call's turn. */
function step(call, path, args, fd) {
  if (!isWatched(path) || !counts(call, args)) return;
  const n = Atomics.add(shared, 0, 1) + 1;
  if (disk.trace)
    plain.appendFileSync(disk.trace, `${n} ${isMainThread ? 'main' : 'worker'} ${call} ${path}\n`);
  if (disk.at === undefined || n < disk.at || (n > disk.at && !disk.onwards)) return;
  if (disk.fault === 'SIGKILL' || disk.fault === 'torn') {
    if (disk.fault === 'torn' && isWrite(call)) writeHalf(call, args, fd);
    process.kill(process.pid, 'SIGKILL');
    // Signals to oneself may take a moment.
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 60_000);
  }
  if (disk.fault === 'SIGINT' || disk.fault === 'SIGTERM') {
    process.kill(process.pid, disk.fault);
    return;
  }
  if (disk.fault === 'ENOSPC' && isWrite(call)) writeHalf(call, args, fd);
  if (disk.fault === 'thread ends') {
    // In a thread of its own this ends the thread alone.
    if (!isMainThread) process.exit(1);
    return;
  }
  if (disk.fault === 'meanwhile') {
    spawnSync(disk.meanwhile[0], disk.meanwhile.slice(1), { env: { ...process.env, FAULTS: '{}' } });
    return;
  }
  throw failed(disk.fault, call, path);
}

if (disk !== undefined) {
  const names = [...ofWriting, ...ofReading];
  const fdOf = (target) =>
    typeof target === 'number' ? target : typeof target?.fd === 'number' ? target.fd : undefined;
  const pathOf = (target) => (fdOf(target) === undefined ? textOf(target) : opened.get(fdOf(target)));
  /** Of two paths the one that is changed, where one of them is watched. */
  const place = (call, args) => {
    const [from, to] = [pathOf(args[0]), textOf(args[1])];
    return /^(rename|link|symlink|copyFile|cp)$/.test(call) && !isWatched(from) ? to : from;
  };

  for (const name of names) {
    const promised = fs.promises[name];
    if (promised) {
      fs.promises[name] = async (...args) => {
        step(name, place(name, args), args.slice(1), fdOf(args[0]));
        const result = await promised(...args);
        if (name === 'open') opened.set(result.fd, textOf(args[0]));
        return result;
      };
    }
    const called = fs[name];
    if (called) {
      fs[name] = (...args) => {
        try {
          step(name, place(name, args), args.slice(1), fdOf(args[0]));
        } catch (error) {
          const back = args.at(-1);
          if (typeof back !== 'function') throw error;
          process.nextTick(back, error);
          return undefined;
        }
        if (name === 'open' && typeof args.at(-1) === 'function') {
          const back = args.at(-1);
          args[args.length - 1] = (error, fd) => {
            if (!error) opened.set(fd, textOf(args[0]));
            back(error, fd);
          };
        }
        return called(...args);
      };
    }
    const atOnce = fs[`${name}Sync`];
    if (atOnce) {
      fs[`${name}Sync`] = (...args) => {
        step(name, place(name, args), args.slice(1), fdOf(args[0]));
        const result = atOnce(...args);
        if (name === 'open') opened.set(result, textOf(args[0]));
        return result;
      };
    }
  }

  const handle = await open(import.meta.filename);
  const prototype = Object.getPrototypeOf(handle);
  await handle.close();
  for (const name of names) {
    const method = prototype[name];
    if (typeof method !== 'function') continue;
    prototype[name] = async function (...args) {
      step(name, opened.get(this.fd), args, this.fd);
      return method.apply(this, args);
    };
  }
  syncBuiltinESMExports();
}

if (clock !== undefined) {
  const now = Date.now;
  const started = now();
  const wrong = () => {
    const t = now();
    return t + (t - started < (clock.jumpAfter ?? 0) ? 0 : clock.offset);
  };
  const TrueDate = Date;
  globalThis.Date = class WrongDate extends TrueDate {
    constructor(...args) {
      if (args.length === 0) super(wrong());
      else super(...args);
    }
    static now() {
      return wrong();
    }
  };
}

import {
  chmodSync,
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs'
import { constants } from 'node:os'
import { basename, dirname, join } from 'node:path'
import { setImmediate } from 'node:timers/promises'
import { Failure } from './problem.ts'

export interface Output {
  readonly path: string
  readonly data: string | Uint8Array
}

/**
 * Writes every file whole or none: each goes into a temporary file beside its place, and all are renamed when all are on disk.
 * An interrupt removes the temporary ones and ends the process as the interrupt would have.
 * @throws Failure with what to do next
 */
export async function writeFiles(outputs: readonly Output[]): Promise<void> {
  const waiting: { readonly temporary: string; readonly place: string }[] = []
  const clear = () => {
    for (const { temporary } of waiting) if (temporary !== '') quietly(() => unlinkSync(temporary))
  }
  const interrupted = (signal: NodeJS.Signals) => {
    clear()
    process.exit(128 + constants.signals[signal])
  }
  for (const signal of SIGNALS) process.on(signal, interrupted)
  let at = ''
  try {
    for (const { path, data } of outputs) {
      at = path
      mkdirSync(dirname(path), { recursive: true })
      const { place, mode } = standing(path)
      const temporary = join(dirname(place), `.${basename(place)}.${process.pid}-${waiting.length}.part`)
      const handle = openSync(temporary, 'wx', mode)
      waiting.push({ temporary, place })
      try {
        if (mode !== 0o666) chmodSync(temporary, mode)
        const bytes = typeof data === 'string' ? Buffer.from(data) : data
        for (
          let from = 0;
          from < bytes.length;
          from += writeSync(handle, bytes, from, Math.min(CHUNK_BYTES, bytes.length - from))
        );
        fsyncSync(handle)
      } finally {
        closeSync(handle)
      }
      await setImmediate()
    }
    for (const { temporary, place } of waiting) {
      at = place
      renameSync(temporary, place)
    }
    waiting.length = 0
  } catch (error) {
    clear()
    throw new Failure(failureText(at, error as NodeJS.ErrnoException))
  } finally {
    for (const signal of SIGNALS) process.removeListener(signal, interrupted)
  }
}

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const
const CHUNK_BYTES = 1 << 20

/** Where the file really lies, through links, and its permissions; a new file has the usual ones. */
function standing(path: string): { readonly place: string; readonly mode: number } {
  try {
    const place = realpathSync(path)
    const stat = statSync(place)
    if (stat.isDirectory()) throw Object.assign(new Error('a folder stands there'), { code: 'EISDIR' })
    return { place, mode: stat.mode & 0o777 }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return { place: path, mode: 0o666 }
    throw error
  }
}

function failureText(path: string, error: NodeJS.ErrnoException): string {
  const next: Record<string, string> = {
    ENOSPC: 'The disk is full. Make room, or write to another disk with --out.',
    EDQUOT: 'Your share of the disk is used up. Make room, or write elsewhere with --out.',
    EACCES: 'You may not write there. Choose another folder with --out.',
    EPERM: 'You may not write there. Choose another folder with --out.',
    EROFS: 'That disk is read-only. Choose another folder with --out.',
    EISDIR: 'A folder of that name stands there. Move it away, or choose another folder with --out.',
    ENOTDIR: 'A file stands where a folder is wanted. Move it away, or choose another folder with --out.',
    EEXIST:
      'A file stands where a folder is wanted, or an earlier run was cut off. Move it away, or choose another folder with --out.',
    EIO: 'The disk does not answer. Write to another disk with --out.',
  }
  return `${path} was not written. ${next[error.code ?? ''] ?? `The machine said: ${error.message}`} Nothing was changed.`
}

function quietly(act: () => void): void {
  try {
    act()
  } catch {}
}

import { closeSync, constants, fstatSync, openSync, readdirSync, readSync } from 'node:fs'
import { basename, dirname, extname } from 'node:path'
import { checkBytes } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import { nearest } from './near.ts'
import { Unreadable } from './problem.ts'

/** More than a thousand machines with all their notes; past it a file is not a job. */
const LARGEST_BYTES = 8 * 1024 * 1024

/**
 * The bytes of a file a person named. Only reads.
 * @throws Unreadable when there is no such file, or it is something else than a file a person wrote
 */
export function fileBytes(path: string, mostBytes = LARGEST_BYTES): Uint8Array {
  const refuse = (code: string, found: string, wanted: string, mend: string): never => {
    const problem: Problem = { code: `file/${code}`, file: path, found, wanted, mend }
    throw new Unreadable(problem)
  }
  if (path.includes('\0')) refuse('name', 'a name with a null character', 'the name of a file', 'Write the name without it.')
  let handle: number
  try {
    // Not to wait on a pipe that nobody writes to.
    handle = openSync(path, constants.O_RDONLY | constants.O_NONBLOCK)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? ''
    if (code === 'ENOENT' || code === 'ENOTDIR') return refuse('absent', 'no file of this name', 'a file', nameHint(path))
    if (code === 'EACCES' || code === 'EPERM')
      return refuse('no-permission', 'a file you may not read', 'a file you may read', `Ask its owner, or: chmod u+r ${path}`)
    if (code === 'ENAMETOOLONG')
      return refuse('name', 'a name too long for a file', 'the name of a file', 'Give the file’s name, not its text.')
    if (code === 'ELOOP')
      return refuse('absent', 'a link that leads to itself', 'a file', 'Give the file the link was meant for.')
    return refuse('unreadable', `it cannot be opened (${code})`, 'a file', 'Copy it to another folder or disk and try that copy.')
  }
  try {
    const stat = fstatSync(handle)
    if (stat.isDirectory()) return refuse('folder', 'a folder', 'a file', folderHint(path))
    if (!stat.isFile())
      return refuse('not-a-file', 'a device or pipe', 'a file on disk', 'Write it into a file first and give that file’s name.')
    if (stat.size > mostBytes) {
      const size = `${Math.round(stat.size / 1024 / 1024)} MB`
      return refuse(
        'too-large',
        size,
        `at most ${mostBytes / 1024 / 1024} MB`,
        mostBytes === LARGEST_BYTES
          ? 'Give the job document itself; keep photographs and plans beside it, under attachments.'
          : 'Cut it into parts, and give them one at a time.',
      )
    }
    const bytes = new Uint8Array(stat.size)
    let at = 0
    while (at < bytes.length) {
      const count = readSync(handle, bytes, at, bytes.length - at, at)
      if (count === 0) break
      at += count
    }
    return bytes.subarray(0, at)
  } catch (error) {
    if (error instanceof Unreadable) throw error
    const code = (error as NodeJS.ErrnoException).code ?? ''
    return refuse(
      'unreadable',
      `it cannot be read to its end (${code})`,
      'a whole file',
      'Copy it to another disk and try that copy.',
    )
  } finally {
    closeSync(handle)
  }
}

/** Names in the same folder that look like what was meant. */
function nameHint(path: string): string {
  const folder = dirname(path)
  let names: readonly string[]
  try {
    names = readdirSync(folder)
  } catch {
    return `The folder ${folder} is not there either. Check the name.`
  }
  const near = nearest(basename(path), names)
  if (near !== null) return `Did you mean ${folder === '.' ? near : `${folder}/${near}`}?`
  const jobs = names.filter(isDocument)
  return jobs.length === 0 ? 'Check the name and the folder.' : `In this folder lie ${listed(jobs)}.`
}

function folderHint(path: string): string {
  try {
    const jobs = readdirSync(path).filter(isDocument)
    if (jobs.length > 0) return `Name a file in it: ${listed(jobs.map((name) => `${path.replace(/\/$/, '')}/${name}`))}.`
  } catch {}
  return 'Name a file in it.'
}

const isDocument = (name: string): boolean => ['.yaml', '.yml', '.json'].includes(extname(name).toLowerCase())

function listed(names: readonly string[]): string {
  return [...names].sort().slice(0, 5).join(', ') + (names.length > 5 ? ` and ${names.length - 5} more` : '')
}

/**
 * The words of a file a person named: UTF-8, not empty.
 * @throws Unreadable
 */
export function fileText(path: string, mostBytes?: number): string {
  const checked = checkBytes(fileBytes(path), mostBytes)
  if (!checked.ok) throw new Unreadable(...checked.problems.map((problem) => ({ ...problem, file: path })))
  return checked.value
}

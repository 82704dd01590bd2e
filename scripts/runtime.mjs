// Finds the Node that the program runs on. Plain JavaScript for any Node from 18 on.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { join } from 'node:path'

/** TypeScript is run as it is from this version on. */
const OLDEST = [22, 18]

/** Path of the pinned Node under `root`, else of the running one when it is new enough, else null. */
export function runtime(root) {
  const pinned = join(root, 'node_modules', `node-${process.platform}-${process.arch}`, 'bin', 'node')
  if (existsSync(pinned) && spawnSync(pinned, ['--version']).status === 0) return pinned
  return newEnough(process.versions.node) ? process.execPath : null
}

export function newEnough(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number)
  return major > OLDEST[0] || (major === OLDEST[0] && minor >= OLDEST[1])
}

export const NO_RUNTIME = `This machine has Node ${process.versions.node}, and the pinned Node does not run here (${process.platform}, ${process.arch}).
Install Node ${OLDEST.join('.')} or newer, then run this again.`

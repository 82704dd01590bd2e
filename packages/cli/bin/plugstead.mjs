#!/usr/bin/env node
// Starts the program on the pinned Node. Plain JavaScript for any Node from 18 on.
import { spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import * as nodeModule from 'node:module'
import { constants } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const OLDEST = [22, 18]
const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)

if (major > OLDEST[0] || (major === OLDEST[0] && minor >= OLDEST[1])) {
  // Keeps the stripped and compiled program between runs: most of the start-up time.
  nodeModule.enableCompileCache?.()
  const { main } = await import('../src/main.ts')
  process.exitCode = await main(process.argv.slice(2))
} else {
  const node = pinned()
  if (node === null) {
    console.error(
      `This is Node ${process.versions.node}; Node ${OLDEST.join('.')} or newer is wanted. In the project's folder run: npm start`,
    )
    process.exitCode = 4
  } else handOver(node)
}

/** The pinned Node of the tree this file lies in, wherever npm put it. */
function pinned() {
  const name = join('node_modules', `node-${process.platform}-${process.arch}`, 'bin', 'node')
  let folder = dirname(fileURLToPath(import.meta.url))
  for (;;) {
    if (existsSync(join(folder, name))) return join(folder, name)
    if (dirname(folder) === folder) return null
    folder = dirname(folder)
  }
}

function handOver(node) {
  const child = spawn(node, [fileURLToPath(import.meta.url), ...process.argv.slice(2)], { stdio: 'inherit' })
  // The one that works decides what an interrupt means; this one waits for it and ends the same way.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill(signal))
  child.on('error', (error) => {
    console.error(`The pinned Node did not start: ${error.message}`)
    process.exitCode = 4
  })
  child.on('exit', (code, signal) => {
    process.exitCode = signal === null ? (code ?? 4) : 128 + constants.signals[signal]
  })
}

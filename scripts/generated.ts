import { existsSync, readFileSync, writeFileSync } from 'node:fs'

/** Writes a generated file, or with `--check` only says whether it is as it should be. Sets the exit code. */
export function writeOrCheck(path: string, wanted: string, command: string): void {
  const there = existsSync(path) ? readFileSync(path, 'utf8') : null
  if (!process.argv.includes('--check')) {
    if (there !== wanted) writeFileSync(path, wanted)
    console.log(`${path} ${there === wanted ? 'was current' : 'written'}`)
  } else if (there !== wanted) {
    console.log(`${path} is not current. Run: ${command}`)
    process.exitCode = 1
  }
}

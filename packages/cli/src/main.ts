import { answerOf, jsonText, VERSION } from '@plugstead/engine/answer'
import type { Problem } from '@plugstead/engine/kernel'
import type { Outcome } from './answer.ts'
import { type Given, readCommandLine } from './command-line.ts'
import { type CommandName, commands, isCommand } from './commands.ts'
import { EXIT, type ExitCode } from './exit-code.ts'
import { commandHelp, programHelp } from './help.ts'
import { nearest } from './near.ts'
import { wrapped } from './print/wrap.ts'
import { Failure, problemText, Unreadable } from './problem.ts'

/** Runs one command line and gives the code to end with. Throws nothing, prints no stack. */
export async function main(words: readonly string[]): Promise<ExitCode> {
  const [first] = words
  const json = words.includes('--json')
  if (first === undefined) return show(process.stderr, programHelp(VERSION), EXIT.unreadable)
  if (first === '--help' || first === '-h' || first === 'help') return help(words[1])
  if (first === '--version') return show(process.stdout, `${VERSION}\n`, EXIT.holds)
  if (!isCommand(first)) return refuse(first, [unknownCommand(first)], json)
  if (words.includes('--help') || words.includes('-h')) return help(first)
  const given = readCommandLine(first, words.slice(1), commands[first].takes)
  if (given.problems.length > 0) return refuse(first, given.problems, json)
  return run(first, given, json)
}

async function run(command: CommandName, given: Given, json: boolean): Promise<ExitCode> {
  let outcome: Outcome
  try {
    const module = await commands[command].load()
    outcome = await module.run(given)
  } catch (thrown) {
    if (thrown instanceof Unreadable) return refuse(command, thrown.problems, json)
    return broken(command, thrown, json)
  }
  return show(process.stdout, json ? jsonText(answerOf(command, outcome)) : outcome.text, outcome.code)
}

/** The input or the command line cannot be read. */
function refuse(command: string, problems: readonly Problem[], json: boolean): Promise<ExitCode> {
  if (json) return show(process.stdout, jsonText(answerOf(command, { problems, result: null })), EXIT.unreadable)
  const head =
    problems.length === 1 ? 'Not read, and nothing was changed:' : `Not read, and nothing was changed; ${problems.length} places:`
  return show(process.stderr, `${[head, ...problems.map(problemText)].join('\n\n')}\n`, EXIT.unreadable)
}

/** Our own mistake, or the machine's. */
function broken(command: string, thrown: unknown, json: boolean): Promise<ExitCode> {
  const message = thrown instanceof Error ? thrown.message : String(thrown)
  const failure = thrown instanceof Failure
  const problem: Problem = {
    code: failure ? 'machine/failed' : 'program/mistake',
    found: message,
    wanted: failure ? 'a machine that does what is asked' : 'an answer',
    mend: failure
      ? 'Do as it says, then run this again.'
      : 'Keep the file as it is and report it with this line. No answer was given.',
  }
  if (json) return show(process.stdout, jsonText(answerOf(command, { problems: [problem], result: null })), EXIT.ours)
  const said = failure ? message : `This is a mistake of the program, not of your file: ${message}\n${problem.mend}`
  return show(process.stderr, `${wrapped(said)}\n`, EXIT.ours)
}

function help(name: string | undefined): Promise<ExitCode> {
  if (name === undefined) return show(process.stdout, programHelp(VERSION), EXIT.holds)
  if (!isCommand(name)) return refuse('help', [unknownCommand(name)], false)
  return show(process.stdout, commandHelp(name), EXIT.holds)
}

function unknownCommand(found: string): Problem {
  const names = Object.keys(commands)
  const near = nearest(found, names)
  const mend = near === null ? 'See plugstead --help.' : `Did you mean plugstead ${near}?`
  return { code: 'command-line/command-unknown', found, wanted: `one of ${names.join(', ')}`, mend }
}

/** Writes `text` and gives `code`; a reader that went away is no matter, a disk that is full is. */
function show(stream: NodeJS.WriteStream, text: string, code: ExitCode): Promise<ExitCode> {
  return new Promise((resolve) => {
    const ended = (error?: Error | null) => {
      if (!error || (error as NodeJS.ErrnoException).code === 'EPIPE') return resolve(code)
      process.stderr.write(`What was asked could not be printed: ${error.message}\n`)
      resolve(EXIT.ours)
    }
    stream.on('error', ended)
    stream.write(text.replaceAll(THIN, ' '), ended)
  })
}

/** Keeps a number and its unit on one line until the text is wrapped; a terminal shows it as a plain space. */
const THIN = '\u202f'

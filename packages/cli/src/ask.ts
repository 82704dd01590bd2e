import { createInterface } from 'node:readline'
import type { CallQuestion } from '@plugstead/engine/job'
import { wrapped } from './print/wrap.ts'
import { Unreadable } from './problem.ts'

/**
 * Asks a person one question after another on the terminal; an empty line gives no answer, and its default will stand. The questions
 * go to standard error, so that the document alone is on standard output. Lines that come at once, as from a clipboard, all count.
 * @throws Unreadable when the input ends before the last question
 */
export async function answersFrom(questions: readonly CallQuestion[]): Promise<Readonly<Record<string, string>>> {
  const terminal = createInterface({ input: process.stdin, output: process.stderr, prompt: '  > ' })
  const waiting: string[] = []
  let ended = false
  let wake = () => {}
  terminal.on('line', (line) => {
    waiting.push(line.trim())
    wake()
  })
  terminal.on('close', () => {
    ended = true
    wake()
  })
  // As an interrupt ends any other command: nothing has been written yet.
  terminal.on('SIGINT', () => process.exit(130))
  const nextLine = async (): Promise<string | null> => {
    terminal.prompt()
    while (waiting.length === 0 && !ended)
      await new Promise<void>((resolve) => {
        wake = resolve
      })
    return waiting.shift() ?? null
  }
  const answers: Record<string, string> = {}
  try {
    for (const [at, question] of questions.entries()) {
      const usual = question.default === null ? `for example: ${question.example}` : `empty: ${question.default}`
      process.stderr.write(
        `\n${wrapped(`${at + 1} of ${questions.length}. ${question.asks}`)}\n${wrapped(`(${usual})`, { indent: 2 })}\n`,
      )
      let line = await nextLine()
      while (line === '' && question.default === null) {
        process.stderr.write('  This one has no default.\n')
        line = await nextLine()
      }
      if (line === null)
        throw new Unreadable({
          ...{
            code: 'call/ended',
            found: `the end of the input at question ${at + 1}`,
            wanted: 'an answer to each question, or an empty line',
          },
          mend: 'Start again, or give the answers as options. Nothing was written.',
        })
      if (line !== '') answers[question.id] = line
    }
  } finally {
    terminal.close()
  }
  return answers
}

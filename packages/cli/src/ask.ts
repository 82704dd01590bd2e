import { createInterface } from 'node:readline/promises'
import type { CallQuestion } from './call-options.ts'
import { wrapped } from './print/wrap.ts'
import { Unreadable } from './problem.ts'

/**
 * Asks a person one question after another on the terminal; an empty line gives no answer, and its default will stand. The questions go to standard error, so
 * that the document alone is on standard output.
 * @throws Unreadable when the input ends before the last question
 */
export async function answersFrom(questions: readonly CallQuestion[]): Promise<Readonly<Record<string, string>>> {
  const terminal = createInterface({ input: process.stdin, output: process.stderr })
  const ended = new AbortController()
  terminal.on('close', () => ended.abort())
  // As an interrupt ends any other command: nothing has been written yet.
  terminal.on('SIGINT', () => process.exit(130))
  const answers: Record<string, string> = {}
  try {
    for (const [at, question] of questions.entries()) {
      const answer = await answerTo(question, at + 1, questions.length)
      if (answer !== null) answers[question.id] = answer
    }
  } finally {
    terminal.close()
  }
  return answers

  async function answerTo(question: CallQuestion, number: number, of: number): Promise<string | null> {
    const usual = question.default === null ? `for example: ${question.example}` : `empty: ${question.default}`
    process.stderr.write(`\n${wrapped(`${number} of ${of}. ${question.asks}`)}\n${wrapped(`(${usual})`, { indent: 2 })}\n`)
    for (;;) {
      let line: string
      try {
        line = (await terminal.question('  > ', { signal: ended.signal })).trim()
      } catch {
        throw new Unreadable({
          ...{
            code: 'call/ended',
            found: `the end of the input at question ${number}`,
            wanted: 'an answer to each question, or an empty line',
          },
          mend: 'Start again, or give the answers as options. Nothing was written.',
        })
      }
      if (line !== '') return line
      if (question.default !== null) return null
      process.stderr.write('  This one has no default.\n')
    }
  }
}

import type { Answer } from '@plugstead/engine/answer'
import { describe, expect, test } from 'vitest'
import { readCommandLine } from './command-line.ts'
import { type CommandName, commands } from './commands.ts'
import { nearest } from './near.ts'
import { charCount } from './print/wrap.ts'
import { plugstead } from './spawned.ts'

const names = Object.keys(commands) as CommandName[]
const codes = (command: CommandName, words: readonly string[]) =>
  readCommandLine(command, words, commands[command].takes).problems.map((problem) => problem.code.replace('command-line/', ''))

describe('reading the line', () => {
  test('operands and options are told apart, in any order', () => {
    const given = readCommandLine('book', ['--out', 'o', 'yard.yaml', '--paper=a4', '--check-print'], commands.book.takes)
    expect(given).toEqual({ operands: ['yard.yaml'], options: { out: 'o', paper: 'a4', 'check-print': true }, problems: [] })
  })

  test('words after -- are operands, whatever they look like', () => {
    expect(readCommandLine('plan', ['--', '--odd.yaml'], commands.plan.takes).operands).toEqual(['--odd.yaml'])
  })

  test('every problem of the line is told at once', () => {
    expect(codes('book', ['--ot', 'x', '--paper', 'a3', '--json=1', 'a', 'b', '--out'])).toEqual([
      ...['option-unknown', 'value-unknown', 'value-not-taken', 'value-missing', 'too-much'],
    ])
    expect(codes('book', ['a', '--out', 'x', '--out', 'y'])).toEqual(['option-twice'])
    expect(codes('plan', [])).toEqual(['operand-missing'])
  })

  test('what was probably meant is named', () => {
    const [problem] = readCommandLine('plan', ['a.yaml', '--shpo', 'x'], commands.plan.takes).problems
    expect(problem?.mend).toContain('Did you mean --shop?')
    expect(nearest('assses', names)).toBe('assess')
    expect(nearest('xyz', names)).toBeNull()
  })
})

describe('the program as a process', () => {
  test('without a command it says what there is, and ends with 2', () => {
    const { code, out, err } = plugstead([])
    expect([code, out]).toEqual([2, ''])
    for (const name of names) expect(err).toContain(name)
  })

  test('an unknown command is refused with what was meant', () => {
    const { code, out, err } = plugstead(['pln'])
    expect([code, out]).toEqual([2, ''])
    expect(err).toContain('Did you mean plugstead plan?')
  })

  test('--version prints the version alone', () => {
    expect(plugstead(['--version']).out).toMatch(/^\d+\.\d+\.\d+\n$/)
  })

  for (const name of names)
    test(`${name} --help tells what it takes, with examples, within 80 columns`, () => {
      const { code, out, err } = plugstead([name, '--help'])
      expect([code, err]).toEqual([0, ''])
      expect(out).toContain(`plugstead ${name}`)
      expect(out).toContain('Examples\n')
      for (const option of Object.keys(commands[name].takes.options)) expect(out).toContain(`--${option}`)
      for (const line of out.split('\n')) expect(charCount(line), line).toBeLessThanOrEqual(80)
    })

  test('a line that cannot be read gives JSON too, with all problems, sixteen questions and code 2', () => {
    const { code, out } = plugstead(['book', '--json', '--paper', 'a3'])
    const answer = JSON.parse(out) as Answer
    expect(code).toBe(2)
    expect(answer.command).toBe('book')
    expect(answer.problems.map((problem) => problem.code)).toEqual(['command-line/value-unknown', 'command-line/operand-missing'])
    expect(answer.questions).toHaveLength(16)
    expect(answer.questions.filter((question) => question.verdict === 'not built')).toHaveLength(4)
    expect(answer.result).toBeNull()
  })
})

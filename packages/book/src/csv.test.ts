import { expect, test } from 'vitest'
import { sample } from '../test/sample.ts'
import { circuitsCsv, cordsCsv, csv, panelCsv } from './csv.ts'

test('cells are quoted as RFC 4180 asks: commas, quotes and line ends, CRLF between records', () => {
  expect(
    csv(
      ['a', 'b'],
      [
        ['x,y', 'say "ampere"'],
        ['two\nlines', 3],
      ],
    ),
  ).toBe('a,b\r\n"x,y","say ""ampere"""\r\n"two\nlines",3\r\n')
})

test('a cell that begins like a formula is text, a negative number is a number', () => {
  expect(csv(['a'], [['=1+1'], ['+49'], ['-cmd'], ['@x'], [-31]])).toBe("a\r\n'=1+1\r\n'+49\r\n'-cmd\r\n'@x\r\n-31\r\n")
})

test('what is not known is an empty cell, never a word or NaN', () => {
  expect(csv(['a', 'b', 'c'], [[null, Number.NaN, Infinity]])).toBe('a,b,c\r\n,,\r\n')
})

test('lists have a record for each way, circuit and cord, all of one length', () => {
  const { assessment } = sample('split', 9)
  const box = assessment.results.circuits.boxes[0]!
  for (const [text, count] of [
    [panelCsv(assessment), box.panel.ways.length],
    [circuitsCsv(assessment), box.circuits.length],
    [cordsCsv(assessment), box.cords.length],
  ] as const) {
    const records = text.trimEnd().split('\r\n')
    expect(records.length).toBe(count + 1)
    expect(new Set(records.map((r) => r.split(',').length)).size).toBe(1)
  }
})

import { expect, test } from 'vitest'
import { surroundingsOf, yearOf } from '../year/index.ts'
import { sampleBox } from '../year/sample-boxes.ts'
import { springHours } from './box.fixture.ts'
import { hourColumns } from './hour-columns.ts'
import { partOfHours } from './part-of-hours.ts'
import { runSummary } from './run-summary.ts'
import { hourEndText } from './words.ts'

const hours = springHours(4)

test('a part of a record begins at its own day and hour, and holds the same numbers', () => {
  const part = partOfHours(hours, 27, 60)
  expect([part.firstDay, part.firstHour, part.hoursCount]).toEqual([101, 3, 33])
  expect(part.columns.airC?.[0]).toBe(hours.columns.airC?.[27])
  expect(part.columns.infraredWPerM2).toBeNull()
  expect(hourEndText(part, 0)).toBe(hourEndText(hours, 27))
  for (const [from, to] of [
    [-1, 5],
    [5, 5],
    [0, 97],
  ] as const)
    expect(() => partOfHours(hours, from, to)).toThrow('air/hours-range')
})

const run = yearOf(sampleBox(), surroundingsOf(sampleBox(), hours, { stepsPerHour: 4 }), { firstRunHours: 24 })

test('extremes and sums of a run are those of its hours', () => {
  const summary = runSummary(run)
  const air = [...run.series.airC]
  expect([summary.airHighestC.value, summary.airLowestC.value]).toEqual([Math.max(...air), Math.min(...air)])
  expect(air[summary.airLowestC.hour]).toBe(summary.airLowestC.value)
  expect(summary.gearHeatKWh).toBeCloseTo(96 * 0.1, 9)
  expect(summary.fellKg).toBeCloseTo(
    run.fellKg.reduce((a, b) => a + b, 0),
    12,
  )
  expect(summary.meanHumidityFrac).toBeCloseTo([...run.series.relativeFrac].reduce((a, b) => a + b, 0) / 96, 12)
  const wet = {
    ...run,
    series: {
      ...run.series,
      filmKgPerM2: run.series.filmKgPerM2.map((_, i) => (i % 6 === 4 ? 0.02 : 0)),
      frostKgPerM2: run.series.frostKgPerM2.map((_, i) => (i % 6 === 4 && i < 60 ? 0.02 : 0)),
    },
  }
  const { wetH, frostH, faces } = runSummary(wet)
  expect([wetH, frostH, faces[4]?.wetH, faces[4]?.frostH, faces[0]?.wetH]).toEqual([86, 10, 86, 10, 0])
})

test('every column of the list has its unit in the heading and one cell an hour', () => {
  const columns = hourColumns(run, hours)
  for (const { head, at } of columns) {
    expect(head).toMatch(/\((C|Pa|%|m\/s|W\/m2|g\/m2|g|kg|Wh)\)$/)
    expect(at(95)).toMatch(/^-?\d+\.\d+$/)
  }
  expect(new Set(columns.map(({ head }) => head)).size).toBe(columns.length)
  expect(columns.find(({ head }) => head === 'roof inside (C)')?.at(10)).toBe((run.series.faceC[64] as number).toFixed(3))
})

import { expect, test } from 'vitest'
import { readJob } from '../job/index.ts'
import { bodyFindings, boxBody } from './index.ts'

function found(survey: string, length = '20 ft') {
  const read = readJob(
    `plugstead: 1\nrules: { set: us }\nboxes: [{ id: yard, length: ${length} }]\nfacts: { surveys: [{ box: yard, ${survey} }] }\n`,
  )
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  const job = read.value
  const [wanted] = job.boxes
  if (wanted === undefined) throw new Error('no box')
  const { findings, workings } = bodyFindings(job, boxBody(wanted, job.surveys[0] ?? null))
  expect(workings.map((w) => w.id)).toEqual(findings.flatMap((f) => f.workings))
  for (const f of findings) expect([f.question, f.verdict, f.subject]).toEqual(['fit', 'unknown', 'yard'])
  return findings.map((f) => `${f.code}: ${f.said}`)
}

test('a survey that fits its box says nothing', () => {
  expect(
    found(
      'length: 6058 mm, inner-width: 2350 mm, inner-height: 2393 mm, inner-length: 5896 mm, rib-pitch: 278 mm, first-rib: { left: 214 mm }, tare: 2280 kg, weighed: 3400 kg, dents: [{ side: left, from: 5 m, up: 1 m, width: 300 mm, height: 200 mm, depth: 20 mm }]',
    ),
  ).toEqual([])
  expect(found('length: 2991 mm, inner-length: 2831 mm', '10 ft')).toEqual([])
})

test.each([
  [
    'inner-width: 2440 mm',
    /^fit\/box-inside: yard was measured 2440 mm inside; its 2438 mm outside less .* leave 2362\.8 mm: 77\.2 mm too much\.$/,
  ],
  [
    'inner-height: 2697 mm',
    /^fit\/box-inside: yard was measured 2697 mm inside; its 2591 mm outside less floor and roof \(50 mm\) leave 2541 mm: 156 mm too much\.$/,
  ],
  ['inner-length: 6100 mm', /^fit\/box-inside: .* 6100 mm inside; its 6058 mm/],
  [
    'rib-pitch: 140 mm',
    /^fit\/box-pitch: yard: ribs measured at 140 mm leave no slope between flats of 72 and 70 mm, 142 mm together/,
  ],
  ['rib-pitch: 278 mm, inner-flat: 150 mm, outer-flat: 150 mm', /^fit\/box-pitch: .* no slope .* 300 mm together/],
  ['rib-pitch: 300 mm, inner-flat: 150 mm, outer-flat: 150 mm', /^fit\/box-pitch: .* no slope .* 300 mm together/],
  ['rib-pitch: 400 mm', /^fit\/box-pitch: .* leave slopes of 129 mm between the usual flats; 34 to 102 mm are seen/],
  ['first-rib: { left: 120 mm }', /^fit\/box-first-rib: .* measured at 120 mm, where the post still stands \(to 178 mm\)/],
  [
    'dents: [{ side: left, from: 5.9 m, up: 1 m, width: 300 mm, height: 200 mm, depth: 20 mm }]',
    /^fit\/box-dent: .* reaches to 6200 mm on a side of 6058 mm: 142 mm outside it/,
  ],
  [
    'dents: [{ side: blind end, from: 1 m, up: 2.5 m, width: 300 mm, height: 200 mm, depth: 20 mm }]',
    /^fit\/box-dent: .* 2700 mm on a side of 2591 mm: 109 mm/,
  ],
  ['tare: 2300 kg, weighed: 2.1 t', /^fit\/box-mass: .* 2100 kg with what is built in, and 2300 kg bare: 200 kg too little/],
  ['length: 12.192 m', /^fit\/box-length: yard is written as 6096 mm long and was measured at 12192 mm: 6096 mm apart/],
])('%s contradicts, and both numbers are said', (survey, said) => {
  const all = found(survey)
  expect(all.length).toBe(1)
  expect(all[0]).toMatch(said)
})

test('flats measured too make an odd pitch right', () => {
  expect(found('rib-pitch: 400 mm, inner-flat: 130 mm, outer-flat: 130 mm')).toEqual([])
})

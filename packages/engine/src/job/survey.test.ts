import { expect, test } from 'vitest'
import { documentPath, type Job, readJob } from './index.ts'

const HEAD = 'plugstead: 1\nrules: { set: us }\nboxes: [{ id: a }, { id: b }]\n'
const text = (surveys: string): string => `${HEAD}facts:\n  surveys: [${surveys}]\n`
function job(surveys: string): Job {
  const read = readJob(text(surveys))
  if (!read.ok) throw new Error(JSON.stringify(read.problems, null, 1))
  return read.value
}
function problems(surveys: string) {
  const read = readJob(text(surveys))
  return read.ok ? [] : read.problems.map((p) => `${p.code} ${p.path}: ${p.found}, wanted ${p.wanted}`)
}

test('a survey is read in millimetres and kilograms, to the tenth that was written', () => {
  const [survey] = job(
    '{ box: b, by: a welder, rib-pitch: 278.5 mm, first-rib: { left: 8.25 in, blind-end: 0.2 m }, inner-width: 2348 mm, tare: 2.31 t, plate: { rating: 30480 kg, state: valid }, pockets: { spacing: 2050 mm, width: 360 mm, height: 115 mm }, crossmember-pitch: 300 mm, dents: [{ side: left, from: 1.2 m, up: 0.9 m, width: 300 mm, height: 200 mm, depth: 25 mm }] }',
  ).surveys
  expect(survey).toMatchObject({
    box: 'b',
    by: 'a welder',
    on: null,
    ribPitchMm: 278.5,
    firstRibMm: { left: 209.55, 'blind end': 200 },
    innerWidthMm: 2348,
    innerHeightMm: null,
    tareKg: 2310,
    plate: { ratingKg: 30480, state: 'valid' },
    pockets: { spacingMm: 2050, widthMm: 360, heightMm: 115 },
    crossmemberPitchMm: 300,
    dents: [{ side: 'left', fromMm: 1200, upMm: 900, widthMm: 300, heightMm: 200, depthMm: 25 }],
  })
})

test('no pockets and pockets nobody looked for are two things', () => {
  expect(job('{ box: a, pockets: no }').surveys[0]?.pockets).toBe('none')
  expect(job('{ box: a }').surveys[0]?.pockets).toBeNull()
})

test.each(['0 mm', '-278 mm'])('a rib pitch of %s is a problem with both numbers', (pitch) => {
  expect(problems(`{ box: a, rib-pitch: ${pitch} }`)).toEqual([
    `job/out-of-range facts.surveys[0].rib-pitch: “${pitch}”, wanted 50 to 600 mm`,
  ])
})

test('a key that is not there, a side that is none, and half a pocket are problems with their place', () => {
  expect(problems('{ box: a, pockets: { spacing: 2050 mm, width: 355 mm, hight: 115 mm } }').join('\n')).toMatch(
    /job\/unknown-key facts\.surveys\[0\]\.pockets\.hight: .*wanted one of: spacing, width, height/,
  )
  expect(problems('{ box: a, pockets: yes }')[0]).toMatch(/job\/wrong-kind facts\.surveys\[0\]\.pockets/)
  expect(problems('{ box: a, dents: [{ side: top, from: 1 m, up: 1 m, width: 1 m, height: 1 m, depth: 9 mm }] }')[0]).toMatch(
    /job\/not-a-choice facts\.surveys\[0\]\.dents\[0\]\.side: “top”, wanted/,
  )
})

test('a survey belongs to a box of the job, and a box has one', () => {
  expect(problems('{ box: c }')[0]).toMatch(/^job\/no-such facts\.surveys\[0\]\.box: “c”/)
  expect(problems('{ box: a }, { box: a }')[0]).toMatch(/^job\/tag-duplicate facts\.surveys\[1\]\.box/)
})

test('what a survey would replace is named by its place in the document, surveyed yet or not', () => {
  const of = job('{ box: b }')
  expect(documentPath(of, 'facts.surveys.b.first-rib.left')).toBe('facts.surveys[0].first-rib.left')
  expect(documentPath(of, 'facts.surveys.a.rib-pitch')).toBe('facts.surveys[1].rib-pitch')
})

test('what a logger told of the air is read with its band, by whom and when; half of it is a problem', () => {
  const [a, b] = job(
    '{ box: a, leakage: { found: 180 m3/h, low: 150 m3/h, high: 216 m3/h, by: list of the loggers, on: 2027-02-20 }, roof-absorptance: { found: 72 %, low: 70 %, high: 74 %, by: list, on: 2027-02-20 } }, { box: b }',
  ).surveys
  expect(a?.air).toEqual({
    leakM3SAt50Pa: {
      value: expect.closeTo(0.05, 12),
      low: expect.closeTo(150 / 3600, 12),
      high: expect.closeTo(0.06, 12),
      by: 'list of the loggers',
      on: '2027-02-20',
    },
    roofAbsorptanceFrac: { value: 0.72, low: expect.closeTo(0.7, 12), high: 0.74, by: 'list', on: '2027-02-20' },
    gearKg: null,
  })
  expect(b?.air).toBeUndefined()
  expect(problems('{ box: a, gear-mass: { found: 300 kg } }')[0]).toMatch(/^job\/missing facts\.surveys\[0\]\.gear-mass\.low/)
})

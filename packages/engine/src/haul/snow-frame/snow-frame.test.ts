import { describe, expect, test } from 'vitest'
import { boxBody } from '../../box/index.ts'
import type { Job, SnowFrame } from '../../job/index.ts'
import { answered, DOOR, exampleJob, skinWith } from '../yard.fixture.ts'
import { bearerOf, bearers, deckOf, decks } from './parts.ts'
import { bearersAt, railsOf, seatMm, shareMm } from './place.ts'
import { underLoads } from './rail.ts'
import { leastFrame } from './search.ts'
import { type FrameTask, frameWork } from './work.ts'

const job = exampleJob('groomer-yard-us')
const body = boxBody(job.boxes[0]!, null)
const task: FrameTask = { yard: job.yard, by: 'ASCE 7-16', body, skin: skinWith([DOOR]) }
const rails = railsOf(body)!
const frameOf = (section: string, count: number, deck = '38 mm x 0.75 mm'): SnowFrame => ({
  ...{ section, deck, seatMm: seatMm(), triedCount: 0 },
  bearersAtMm: bearersAt(rails, count),
})
const at = (work: ReturnType<typeof frameWork>, what: string): number => work!.checks.find((c) => c.what === what)!.demand
const withPin = (value: string): Job => ({
  ...job,
  pins: [{ path: `haul.${body.box}.snow-frame`, value, by: 'the yard', why: 'test' }],
})
const snowed = (groundLoadPa: number | null): Job => ({
  ...job,
  yard: { ...job.yard, snow: { ...job.yard.snow, groundLoadPa } },
})
const found = (of: Job, code: string) => answered(of).findings.find((f) => f.code === code)

describe('sections against printed rows', () => {
  // EN 10219-2, table B.2, rolled corners: mass kg/m, I cm4, W cm3. Provenance: memory
  test.each([
    ['tube 80 x 80 x 5', 11.3, 131, 32.9],
    ['tube 100 x 100 x 4', 11.9, 226, 45.3],
    ['tube 100 x 100 x 5', 14.4, 271, 54.2],
    ['tube 120 x 120 x 5', 17.5, 485, 80.9],
    ['tube 150 x 150 x 5', 22.3, 982, 131],
  ])('%s: never stiffer nor stronger than the row, and at most 5 %% below it; never lighter', (section, kg, cm4, cm3) => {
    const tube = bearerOf(section)
    for (const [ours, printed] of [
      [tube.inertiaMm4 / 1e4, cm4],
      [tube.sectionMm3 / 1e3, cm3],
    ] as const) {
      expect(ours / printed).toBeLessThan(1.003)
      expect(ours / printed).toBeGreaterThan(0.95)
    }
    expect(tube.kgPerM / kg).toBeGreaterThan(1)
    expect(tube.kgPerM / kg).toBeLessThan(1.05)
  })
  test('deck of 22 gauge: 1.78 psf is 8.69 kg/m2, 0.186 in3/ft is 10.0 mm3/mm', () => {
    const deck = deckOf('38 mm x 0.75 mm')
    expect(deck.kgPerM2).toBeCloseTo(8.69, 2)
    expect(deck.sectionMm3).toBeCloseTo(10.0, 2)
    expect(deck.inertiaMm4).toBeCloseTo(211.7, 1)
  })
})

describe('beams', () => {
  test('one load in the middle: P·l/4 and P·l³/48; two at the thirds: P·l/3 and 23·P·l³/648 (AISC beam diagrams 7 and 9)', () => {
    const one = underLoads({ spanMm: 900, atMm: [450], eachN: 1000 })
    expect(one.momentNmm).toBeCloseTo((1000 * 900) / 4, 6)
    expect(one.sagTimesEI).toBeCloseTo((1000 * 900 ** 3) / 48, 0)
    const two = underLoads({ spanMm: 900, atMm: [300, 600], eachN: 1000 })
    expect(two.momentNmm).toBeCloseTo((1000 * 900) / 3, 6)
    expect(two.sagTimesEI / ((23 * 1000 * 900 ** 3) / 648)).toBeCloseTo(1, 9)
  })
  test('what one bearer carries: 1.25·w·l over two spans, 8/7 over four, an overhang tips onto the end one (AISC table 3-22c)', () => {
    expect(shareMm(1000, 0, 3)).toBeCloseTo(1250, 6)
    expect(shareMm(1000, 0, 5)).toBeCloseTo(1000 * (8 / 7), 0)
    expect(shareMm(1000, 0, 2)).toBeCloseTo(500, 6)
    expect(shareMm(1000, 1000, 5)).toBeCloseTo(2000, 6)
  })
})

describe('a frame by hand', () => {
  // ASCE 7: pf = 0.7·1.0·1.2·1.0·9.6 kPa = 8.064 kPa; 7 bearers 917 mm apart over 2378 mm, 8/7 of it on one.
  const work = frameWork(task, frameOf('tube 100 x 100 x 4', 7), 8064)
  test('bearer: w·l²/(8·S) with snow, deck and its own mass', () => {
    const w = (8064 + 1.78 * 4.882428 * 9.81) * 0.917 * 1.1429 + bearerOf('tube 100 x 100 x 4').kgPerM * 9.81
    const stress = ((w / 1000) * 2378 ** 2) / 8 / bearerOf('tube 100 x 100 x 4').sectionMm3
    expect(at(work, 'bearer') / stress).toBeCloseTo(1, 3)
    expect(work!.seatN).toBeCloseTo((w * 2.438) / 2, -1)
  })
  test('what goes down the seats goes down the walls: no load is lost', () =>
    expect(2 * work!.sideN).toBeCloseTo(8064 * 6.058 * 2.438 + work!.ownN, 0))
  test('deeper snow, fewer bearers, a thinner deck, a smaller tube: never kinder', () => {
    expect(at(frameWork(task, frameOf('tube 100 x 100 x 4', 7), 9000), 'bearer')).toBeGreaterThan(at(work, 'bearer'))
    expect(at(frameWork(task, frameOf('tube 100 x 100 x 4', 6), 8064), 'deck')).toBeGreaterThan(at(work, 'deck'))
    expect(at(frameWork(task, frameOf('tube 80 x 80 x 5', 7), 8064), 'bearer')).toBeGreaterThan(at(work, 'bearer'))
    const thick = frameWork(task, frameOf('tube 100 x 100 x 4', 7, '38 mm x 1.20 mm'), 8064)
    expect(at(thick, 'deck')).toBeLessThan(at(work, 'deck'))
  })
})

describe('the search', () => {
  test('nothing of the same lists that holds is lighter, and one bearer less fails', () => {
    const best = leastFrame(task, null)!
    const massOf = (f: SnowFrame) =>
      f.bearersAtMm.length * (bearerOf(f.section).kgPerM * 2.438 + bearerOf('tube 60 x 60 x 5').kgPerM * 0.2) +
      deckOf(f.deck).kgPerM2 * 3 * 0.914 * 6.058
    for (const tube of bearers().filter((b) => b.bMm >= 80))
      for (const deck of decks())
        for (let count = 2; count <= 19; count++) {
          const one = frameOf(tube.section, count, deck.deck)
          if (frameWork(task, one, 8064)!.verdict !== 'fails') expect(massOf(one)).toBeGreaterThanOrEqual(massOf(best) - 1e-6)
        }
    const fewer = { ...best, bearersAtMm: bearersAt(rails, best.bearersAtMm.length - 1) }
    expect(frameWork(task, fewer, 8064)!.verdict).toBe('fails')
    expect(best.triedCount).toBe(5 * 3 * 18)
  })
  test('no snow told: none; more than any of them holds: none', () => {
    expect(leastFrame({ ...task, yard: snowed(null).yard }, null)).toBeNull()
    expect(leastFrame({ ...task, yard: snowed(100_000).yard }, null)).toBeNull()
  })
})

describe('chosen, pinned, said', () => {
  test('where the bare roof fails a frame is built and holds; pinned none it fails and names the frame', () => {
    expect(['holds', 'tight']).toContain(found(job, 'haul/roof-snow')!.verdict)
    const bare = found(withPin('none'), 'haul/roof-snow')!
    expect(bare.verdict).toBe('fails')
    expect(bare.mends).toMatchObject([{ path: `haul.${body.box}.snow-frame`, value: 'frame' }])
    expect(answered(withPin('none')).haul.snowFrame).toBeNull()
  })
  test('where it is not known whether the roof holds none is built unasked; pinned it is, and the roof is no longer unknown', () => {
    const some = snowed(3000)
    expect(answered(some).haul.snowFrame).toBeNull()
    const asked = answered({ ...some, pins: withPin('frame').pins })
    expect(asked.haul.snowFrame).not.toBeNull()
    expect(['holds', 'tight']).toContain(asked.findings.find((f) => f.code === 'haul/roof-snow')!.verdict)
  })
  test('no snow told is unknown with or without the wish for a frame; words that are none are said', () => {
    expect(found({ ...snowed(null), pins: withPin('frame').pins }, 'haul/roof-snow')!.verdict).toBe('unknown')
    expect(found(withPin('roof'), 'haul/pin')!.verdict).toBe('unknown')
  })
  test('it presses on the pads, meets the wind, is off the box on the road but for its seats', () => {
    const [on, off] = [answered(job), answered(withPin('none'))]
    const [a, b] = [on.result.boxes[0]!, off.result.boxes[0]!]
    expect(a.pads.worstN).toBeGreaterThan(b.pads.worstN)
    expect(a.wind!.high.forceN).toBeGreaterThan(b.wind!.high.forceN)
    expect(a.heightOnDeckM - a.design.deckHeightM - (b.heightOnDeckM - b.design.deckHeightM)).toBeCloseTo(0.032, 9)
    const heavier = a.centres.at(-1)!.massKg.high - b.centres.at(-1)!.massKg.high
    expect(heavier).toBeGreaterThan(5)
    expect(heavier).toBeLessThan(25)
  })
  test('a frame of too few bearers that somebody wrote fails', () => {
    const weak = answered(job, { haul: { snowFrame: frameOf('tube 80 x 80 x 5', 3) } })
    expect(weak.findings.find((f) => f.code === 'haul/roof-snow')!.verdict).toBe('fails')
  })
  test('the part of the wall above a door without a head is not proved', () => {
    const open = answered(job, { skin: skinWith([{ ...DOOR, frame: null }]) })
    expect(open.findings.find((f) => f.code === 'haul/snow-frame-path')!.verdict).toBe('unknown')
    const framed = answered(job, { skin: skinWith([{ ...DOOR, frame: 'tube 50 x 50 x 3' }]) })
    expect(framed.findings.find((f) => f.code === 'haul/snow-frame-path')!.verdict).toBe('holds')
  })
})

import { describe, expect, test } from 'vitest'
import { designAir } from '../air/index.ts'
import { boxBody } from '../box/index.ts'
import type { BoxDesign, Job, Pin, PlacedItem } from '../job/index.ts'
import { answerHaul, designHaul } from './index.ts'
import type { HaulBox } from './result.ts'
import { answered, DOOR, exampleJob, FIT, skinWith } from './yard.fixture.ts'

const EXAMPLES = [
  'bus-pool-lot-ca',
  'desert-quarry-intl',
  'fish-farm-shore-intl',
  'groomer-yard-us',
  'moved-box-airstrip-ca',
  'two-machines',
  'waterworks-extension-us',
  'winter-road-camp-ca',
]

type Answered = ReturnType<typeof answered>
const finding = (answer: Answered, code: string) => answer.findings.find((f) => f.code === code)
const verdict = (answer: Answered, code: string) => finding(answer, code)?.verdict
const box = (answer: Answered): HaulBox => {
  const one = answer.result.boxes[0]
  if (one === undefined) throw new Error('no box')
  return one
}
const pin = (path: string, value: Pin['value']): Pin => ({ path, value, by: 'the yard’s foreman', why: 'it is there' })
const pinned = (job: Job, ...pins: readonly Pin[]): Job => ({ ...job, pins: [...job.pins, ...pins] })
const first = (job: Job): string => job.boxes[0]?.id ?? ''
const inYard = (job: Job, more: (yard: Job['yard']) => Partial<Job['yard']>): Job => ({
  ...job,
  yard: { ...job.yard, ...more(job.yard) },
})
const ofFeet = (job: Job, lengthFt: number): Job => ({ ...job, boxes: job.boxes.map((one) => ({ ...one, lengthFt })) })

describe.each(EXAMPLES)('%s', (name) => {
  const job = exampleJob(name)
  const answer = answered(job)

  test('every finding is of this question, rests on a working that is there, and no two workings have one id', () => {
    const ids = answer.workings.map((w) => w.id)
    expect(new Set(ids).size).toBe(ids.length)
    for (const f of answer.findings) {
      expect(f.question).toBe('haul')
      expect(f.code).toMatch(/^haul\//)
      expect(f.workings.filter((w) => !ids.includes(w))).toEqual([])
    }
    for (const w of answer.workings) expect(w.steps.length, w.id).toBeGreaterThan(0)
  })

  test('nothing is said with a number that is none, and nothing gives leave', () => {
    for (const f of answer.findings) {
      expect(f.said).not.toMatch(/NaN|undefined|null|\[object|Infinity/)
      expect(f.said).not.toMatch(/\b(safe to|is safe|permitted|may be lifted|go ahead|approved for)\b/i)
    }
  })

  test('whatever is lifted, hauled or stood on names who decides; lifts, roofs and lines carry their caution', () => {
    for (const f of answer.findings.filter((one) => !['haul/mass', 'haul/centre', 'haul/plate'].includes(one.code)))
      expect(f.decides, f.code).toMatch(/\w/)
    expect(finding(answer, 'haul/method')?.caution).toMatch(/under the load|Chain the box/)
    expect(finding(answer, 'haul/roof-snow')?.caution).toMatch(/not a platform/)
    expect(finding(answer, 'haul/overhead-line')?.caution).toMatch(/overhead lines/)
  })

  test('its own slings, lashings, pads and anchors hold as far as anybody has told what they stand against', () => {
    for (const code of ['haul/sling-angle', 'haul/sling-tension', 'haul/lashing', 'haul/anchors', 'haul/bearing'])
      expect(verdict(answer, code) ?? 'holds', code).not.toBe('fails')
  })

  test('the same twice is the same, to the byte', () => expect(JSON.stringify(answered(job))).toBe(JSON.stringify(answer)))

  test('four pads or more, all on the ground under the box, and anchors at its fittings', () => {
    const { pads, anchors, design } = box(answer)
    expect(pads.rectanglesMm).toHaveLength(design.pads.count)
    for (const pad of pads.rectanglesMm) {
      expect(pad.atMm[0] + pad.lengthMm / 2).toBeGreaterThan(0)
      expect(pad.atMm[0] + pad.lengthMm / 2).toBeLessThan(answer.body.outsideMm[0])
      expect(pad.atMm[2]).toBe(-150)
    }
    if (anchors !== null) expect(anchors.atMm).toHaveLength(anchors.count)
  })
})

describe('a heavier box never needs less', () => {
  const job = exampleJob('fish-farm-shore-intl')
  const middle = (kg: number): PlacedItem => ({
    ...(FIT.items[0] as PlacedItem),
    id: 'load',
    atMm: [3029, 1219, 500],
    sizeMm: [0, 0, 0],
    massKg: { low: kg, high: kg, basis: '', told: true },
  })
  const at = (kg: number) => answered(job, { fit: { ...FIT, items: [...FIT.items, middle(kg)] } })
  const [light, heavy] = [box(at(0)), box(at(1500))]

  test('slings, forks’ forces, lashing forces, pull of the winch, corner', () => {
    expect(heavy.slings?.legWllKg).toBeGreaterThan(light.slings?.legWllKg ?? Number.NaN)
    expect(heavy.securing.forwardN).toBeGreaterThan(light.securing.forwardN)
    expect(heavy.pads.worstN).toBeGreaterThan(light.pads.worstN)
    const onBed = (kg: number) =>
      box(
        answered(pinned(job, pin(`haul.${first(job)}.unload`, 'tilt-bed')), {
          fit: { ...FIT, items: [...FIT.items, middle(kg)] },
        }),
      ).tilt?.winchN
    expect(onBed(1500)).toBeGreaterThan(onBed(0) ?? Number.NaN)
  })

  test('but the wind holds it less', () => {
    expect(heavy.wind?.high.rightNm).toBeGreaterThan(light.wind?.high.rightNm ?? Number.NaN)
    expect(heavy.wind?.high.forceN).toBe(light.wind?.high.forceN)
  })
})

describe('the way it is lifted', () => {
  const shore = exampleJob('fish-farm-shore-intl')

  test('19 m of straight run is no place for a tilt-bed, and slings are offered instead', () => {
    const answer = answered(
      pinned(shore, pin(`haul.${first(shore)}.unload`, 'tilt-bed'), pin(`haul.${first(shore)}.lift`, 'tilt-bed')),
    )
    expect(answer.haul.unload).toBe('tilt-bed')
    expect(verdict(answer, 'haul/straight-run')).toBe('fails')
    expect(finding(answer, 'haul/straight-run')?.mends).toMatchObject([
      { path: `haul.${first(shore)}.unload`, value: 'bottom slings with spreader' },
    ])
    expect(verdict(answer, 'haul/method')).toBe('unknown')
  })

  test('26 m of run is tight for 24 m; for a 40 ft box, of which sources say 30 to 49 m, 35 m is not known', () => {
    const yard = exampleJob('groomer-yard-us')
    expect(verdict(answered(yard), 'haul/straight-run')).toBe('tight')
    const long = inYard(ofFeet(yard, 40), (y) => ({ access: { ...y.access, straightRunM: 35 } }))
    expect(verdict(answered(long), 'haul/straight-run')).toBe('unknown')
  })

  test('leaning slings from the top under a packed 20 ft box fail; from an upright spreader an engineer is asked about the cut wall', () => {
    const at = (method: string) =>
      answered(pinned(shore, pin(`haul.${first(shore)}.unload`, method), pin(`haul.${first(shore)}.lift`, method)))
    expect(verdict(at('top slings, inclined'), 'haul/method')).toBe('fails')
    const upright = at('top spreader, vertical')
    expect(verdict(upright, 'haul/method')).toBe('unknown')
    expect(finding(upright, 'haul/method')?.said).toMatch(/door 1.*an engineer says/)
    expect(box(upright).slings?.angleDeg).toBe(90)
    const whole = answered(pinned(shore, pin(`haul.${first(shore)}.unload`, 'top spreader, vertical')), { skin: skinWith([]) })
    expect(whole.findings.filter((f) => f.code === 'haul/method').map((f) => f.verdict)).toEqual(['holds'])
  })

  test('slings below the least angle for the length fail, and pull without end where they lie flat', () => {
    expect(verdict(answered(shore, { haul: { slingAngleDeg: 40 } }), 'haul/sling-angle')).toBe('fails')
    expect(verdict(answered(shore, { haul: { slingAngleDeg: 80 } }), 'haul/sling-angle')).toBe('fails')
    const flat = answered(shore, { haul: { slingAngleDeg: 0 } })
    expect(verdict(flat, 'haul/sling-tension')).toBe('fails')
    expect(JSON.stringify(flat.findings.map((f) => f.said))).not.toMatch(/NaN|Infinity/)
  })

  test('called angles stand over the least of each length and clear the roof', () => {
    for (const feet of [8, 10, 20, 40, 45]) {
      const answer = answered(ofFeet(shore, feet))
      const { slings } = box(answer)
      expect(slings?.angleDeg).toBeGreaterThanOrEqual(slings?.leastAngleDeg ?? Number.NaN)
      expect(slings?.spreaderMm?.[0][2]).toBeGreaterThan(answer.body.outsideMm[2])
    }
  })

  test('the hook hangs over the centre, and the legs are as steep as they are called', () => {
    const { slings, centres } = box(answered(shore))
    expect(slings?.hookMm[0]).toBe(centres.at(-1)?.centreMm[0])
    const mean = (slings?.legs ?? []).map(
      (leg) => (Math.atan2(leg.toMm[2] - leg.fromMm[2], Math.abs(leg.toMm[0] - leg.fromMm[0])) * 180) / Math.PI,
    )
    expect(mean).toHaveLength(4)
    expect(Math.min(...mean)).toBeLessThanOrEqual(slings?.angleDeg ?? 0)
    expect(Math.max(...mean)).toBeGreaterThanOrEqual(slings?.angleDeg ?? 0)
  })

  test('forks under a 40 ft box fail; under a 20 ft box nobody has looked for pockets', () => {
    const forks = (job: Job) => answered(pinned(job, pin(`haul.${first(job)}.unload`, 'forks, wide pockets')))
    expect(
      forks(ofFeet(shore, 40))
        .findings.filter((f) => f.code === 'haul/method')
        .map((f) => f.verdict),
    ).toContain('fails')
    const answer = forks(shore)
    expect(answer.findings.find((f) => f.code === 'haul/method' && /pockets/.test(f.said))?.verdict).toBe('unknown')
    expect(verdict(answer, 'haul/fork')).not.toBe('holds')
  })

  test('gear at one end takes the centre out of what forks may carry on the way', () => {
    const far: PlacedItem = { ...(FIT.items[1] as PlacedItem), massKg: { low: 900, high: 900, basis: '', told: true } }
    const answer = answered(pinned(shore, pin(`haul.${first(shore)}.unload`, 'forks, wide pockets')), {
      fit: { ...FIT, items: [far] },
    })
    expect(verdict(answer, 'haul/fork')).toBe('fails')
    expect(verdict(answer, 'haul/centre')).toBe('fails')
  })

  test('a short box has no rating until its plate or a test says one', () => {
    const answer = answered(ofFeet(shore, 9))
    expect(verdict(answer, 'haul/rating')).toBe('unknown')
    expect(finding(answer, 'haul/rating')?.said).toMatch(/inherits no rating/)
  })

  test('dragging is said to be no way to move a box', () => {
    const answer = answered(exampleJob('winter-road-camp-ca'))
    expect(verdict(answer, 'haul/method')).toBe('unknown')
    expect(finding(answer, 'haul/method')?.said).toMatch(/no way to move a box/)
  })
})

describe('on the road', () => {
  const job = exampleJob('groomer-yard-us')

  test('no lashing, too few, or of a kind that no table knows: not held', () => {
    const at = (lashings: Answered['haul']['lashings']) => verdict(answered(job, { haul: { lashings } }), 'haul/lashing')
    expect(at([])).toBe('fails')
    expect(at([{ kind: 'chain 3/8 in grade 70', count: 2, over: 'deck to cargo' }])).toBe('fails')
    expect(at([{ kind: 'webbing 1-3/4 in', count: 3, over: 'over the top' }])).toBe('holds')
    expect(at([{ kind: 'rope', count: 4, over: 'deck to cargo' }])).toBe('unknown')
    expect(at([{ kind: 'twist-lock', count: 4, over: 'lock' }])).toBe('holds')
    expect(at([{ kind: 'twist-lock', count: 3, over: 'lock' }])).toBe('fails')
  })

  test('by EN 12195-1 a chain is judged by its own pull, a strap by the tension of its ratchet', () => {
    const shore = exampleJob('fish-farm-shore-intl')
    const at = (lashings: Answered['haul']['lashings']) => verdict(answered(shore, { haul: { lashings } }), 'haul/lashing')
    expect(at([{ kind: 'chain 8 mm grade 8', count: 4, over: 'deck to cargo' }])).toBe('holds')
    expect(at([{ kind: 'strap 50 mm', count: 4, over: 'over the top' }])).toBe('fails')
    expect(at([{ kind: 'strap 50 mm', count: 12, over: 'over the top' }])).toBe('holds')
    expect(at([])).toBe('fails')
    expect(at([{ kind: 'rope', count: 4, over: 'deck to cargo' }])).toBe('unknown')
  })

  test('a high box on a high deck is over the limit; the design takes a lower one', () => {
    const high: Job = { ...job, boxes: job.boxes.map((one) => ({ ...one, heightKind: 'high' as const })) }
    expect(verdict(answered(high, { haul: { deckHeightM: 1.4 } }), 'haul/route-height')).toBe('fails')
    expect(verdict(answered(high), 'haul/route-height')).toBe('holds')
    expect(verdict(answered(job, { haul: { deckHeightM: 4.1148 - 2.591, snowFrame: null } }), 'haul/route-height')).toBe('tight')
    // The seats of a snow frame travel on the box: with them the same deck is too high.
    expect(verdict(answered(job, { haul: { deckHeightM: 4.1148 - 2.591 } }), 'haul/route-height')).toBe('fails')
  })

  test('lines: 2.9 m over the travelling box the owner decides, 1.4 m fails, one beside waits for a survey', () => {
    expect(verdict(answered(job), 'haul/overhead-line')).toBe('unknown')
    expect(verdict(answered(exampleJob('fish-farm-shore-intl')), 'haul/overhead-line')).toBe('fails')
    expect(finding(answered(exampleJob('waterworks-extension-us')), 'haul/overhead-line')?.said).toMatch(/survey/)
    const said = (overheadLine: string | null) =>
      verdict(answered(inYard(job, (y) => ({ access: { ...y.access, overheadLine } }))), 'haul/overhead-line')
    expect(said(null)).toBe('unknown')
    expect(said('none')).toBe('holds')
    expect(said('138 kV, 30 m up')).toBe('unknown')
    expect(said('a line, 30 m up')).toBe('unknown')
  })
})

describe('where it stands', () => {
  const job = exampleJob('groomer-yard-us')

  test('9.6 kPa of snow on a freight roof fails; 2.9 kPa depends on how far its ribs reach', () => {
    expect(verdict(answered(job, { haul: { snowFrame: null } }), 'haul/roof-snow')).toBe('fails')
    expect(verdict(answered(exampleJob('bus-pool-lot-ca')), 'haul/roof-snow')).toBe('unknown')
    expect(verdict(answered(exampleJob('desert-quarry-intl')), 'haul/roof-snow')).toBe('holds')
  })

  test('without anchors 2.6 kPa of wind fails at both ends, and a mend names anchors that hold', () => {
    const works = exampleJob('waterworks-extension-us')
    const bare = answered(works, { haul: { anchors: null } })
    expect(verdict(bare, 'haul/wind-sliding')).toBe('fails')
    expect(verdict(bare, 'haul/wind-overturning')).toBe('fails')
    const mend = finding(bare, 'haul/wind-sliding')?.mends[0]
    expect(mend?.path).toBe(`haul.${first(works)}.anchors`)
    const mended = answered(pinned(works, pin(mend?.path ?? '', mend?.value ?? '')))
    expect(verdict(mended, 'haul/anchors')).toBe('holds')
    expect(verdict(mended, 'haul/wind-sliding')).toBe('holds')
  })

  test('wind that slides the box asks for anchors though it does not tip it', () => {
    const { haul, result } = answered(exampleJob('bus-pool-lot-ca'))
    const high = result.boxes[0]?.wind?.high
    expect(high?.overturnNm).toBeLessThan(high?.rightNm ?? 0)
    expect(high?.slideN).toBeGreaterThan(high?.gripN ?? 0)
    expect(haul.anchors?.count).toBe(4)
  })

  test('still air and no snow: no anchors, and the worst pad carries half of the box, not a quarter', () => {
    const calm = inYard(exampleJob('desert-quarry-intl'), (y) => ({ wind: { ...y.wind, pressurePa: 0 } }))
    const answer = answered(calm)
    expect(answer.haul.anchors).toBeNull()
    const weightN = (box(answer).centres[1]?.massKg.high ?? 0) * 9.81
    expect(box(answer).pads.worstN).toBeGreaterThan(weightN / 2)
    expect(box(answered(job)).pads.worstN).toBeGreaterThan(box(answer).pads.worstN)
  })

  test('weak anchors hold neither themselves nor the box', () => {
    const weak = answered(pinned(job, pin(`haul.${first(job)}.anchors`, '4 of 2 kN')))
    expect(weak.haul.anchors?.eachN).toBe(2000)
    expect(['haul/anchors', 'haul/wind-sliding', 'haul/wind-overturning'].map((code) => verdict(weak, code))).toEqual([
      'fails',
      'fails',
      'fails',
    ])
    expect(finding(weak, 'haul/wind-sliding')?.said).toMatch(/too weak/)
  })

  test('pins are kept as they are: none, a number, pads', () => {
    const at = (...pins: readonly Pin[]) => answered(pinned(job, ...pins)).haul
    expect(at(pin(`haul.${first(job)}.anchors`, 'none')).anchors).toBeNull()
    expect(at(pin(`haul.${first(job)}.anchors`, 6)).anchors?.count).toBe(6)
    expect(at(pin(`haul.${first(job)}.pads`, '4 of 250 x 300 mm')).pads).toMatchObject({ count: 4, lengthMm: 250, widthMm: 300 })
  })

  test('a pin that cannot be read is said, and not taken', () => {
    for (const [name, value] of [
      ['pads', 'two planks'],
      ['anchors', '3'],
      ['unload', 'by hand'],
    ] as const) {
      const answer = answered(pinned(job, pin(`haul.${first(job)}.${name}`, value)))
      expect(finding(answer, 'haul/pin'), name).toMatchObject({ verdict: 'unknown', subject: `haul.${first(job)}.${name}` })
      expect(answer.haul).toEqual(answered(job).haul)
    }
  })

  test('small pads sink, and the mend is a size that bears', () => {
    const answer = answered(pinned(job, pin(`haul.${first(job)}.pads`, '4 of 200 x 200 mm')))
    expect(verdict(answer, 'haul/bearing')).toBe('fails')
    const mend = finding(answer, 'haul/bearing')?.mends[0]
    const mended = answered(pinned(job, pin(mend?.path ?? '', mend?.value ?? '')))
    expect(verdict(mended, 'haul/bearing')).toBe('holds')
  })

  test('what nobody said is unknown, each by its own finding, never held', () => {
    const answer = answered(exampleJob('two-machines'))
    for (const code of [
      'straight-run',
      'way-width',
      'way-grade',
      'overhead-line',
      'wind-sliding',
      'wind-overturning',
      'roof-snow',
      'bearing',
      'level',
    ])
      expect(verdict(answer, `haul/${code}`), code).toBe('unknown')
  })

  test('steep ground: packed to 300 mm, a foundation beyond', () => {
    const at = (slopeFrac: number) =>
      verdict(answered(inYard(job, (y) => ({ ground: { ...y.ground, slopeFrac } }))), 'haul/level')
    expect([0.01, 0.02, 0.045, 0.06].map(at)).toEqual(['holds', 'holds', 'tight', 'fails'])
  })
})

describe('any box in any yard', () => {
  const job = exampleJob('waterworks-extension-us')
  const ways = ['tilt-bed', 'crane', 'forks', 'side-lift', 'skids', 'by hand', null]

  test.each([8, 9, 10, 16, 20, 33, 40, 45, 53])(
    '%d ft: answered in every rule set, whatever of the site is told, and never without a finding of wind, snow and ground',
    (feet) => {
      for (const set of ['us', 'ca', 'intl'] as const)
        for (const unload of ways)
          for (const told of [true, false]) {
            const here: Job = { ...ofFeet(job, feet), rules: { ...job.rules, set } }
            const yard = told
              ? inYard(here, (y) => ({ access: { ...y.access, unload }, snow: { ...y.snow, groundLoadPa: 1500 } }))
              : { ...here, yard: { ...exampleJob('two-machines').yard } }
            const answer = answered(yard)
            const codes = new Set(answer.findings.map((f) => f.code))
            for (const code of [
              'mass',
              'centre',
              'rating',
              'method',
              'lashing',
              'wind-sliding',
              'wind-overturning',
              'roof-snow',
              'bearing',
            ])
              expect(codes.has(`haul/${code}`), `${set} ${unload} ${code}`).toBe(true)
            expect(answer.findings.filter((f) => /NaN|undefined|null|Infinity/.test(f.said)).map((f) => f.said)).toEqual([])
            if (!told) expect(verdict(answer, 'haul/wind-sliding')).toBe('unknown')
          }
    },
  )
})

describe('several boxes and cords', () => {
  const job = exampleJob('groomer-yard-us')
  const cord = { plug: 'G1', type: 'SJTW', size: '12 AWG', lengthM: 30, jacketMinC: -40 }
  const circuit = { connection: 'LN', cords: [cord] }
  const boxes = [{ box: first(job), phase: 'stay', circuits: [circuit] }] as unknown as readonly BoxDesign[]

  test('cords in the box weigh 1.8 to 2.2 times their copper and widen where its centre may lie', () => {
    const answer = answered(job, { boxes })
    const cords = box(answer).items.find((one) => one.id === 'cords')
    expect(cords?.massKg.low).toBeCloseTo(1.8 * 3 * 30 * 3.31 * 0.00889, 1)
    const [, fitted, corded] = box(answer).centres
    expect(corded?.massKg.high).toBeCloseTo((fitted?.massKg.high ?? 0) + (cords?.massKg.high ?? 0), 9)
    expect((corded?.highMm[0] ?? 0) - (corded?.lowMm[0] ?? 0)).toBeGreaterThan((fitted?.highMm[0] ?? 0) - (fitted?.lowMm[0] ?? 0))
  })

  test('a cord that another plug shares is carried once, and of two that one plug had the heavier', () => {
    const kg = (...all: readonly object[]) => {
      const circuits = [{ connection: 'LN', cords: all }]
      const answer = answered(job, { boxes: [{ box: first(job), phase: 'stay', circuits }] as unknown as readonly BoxDesign[] })
      return box(answer).items.find((one) => one.id === 'cords')?.massKg.low ?? Number.NaN
    }
    const one = kg(cord)
    expect(kg(cord, { ...cord, plug: 'G2', sharedWith: 'G1' })).toBeCloseTo(one, 9)
    expect(kg(cord, { ...cord, plug: 'G2' })).toBeCloseTo(2 * one, 9)
    const heavy = { ...cord, lengthM: 60 }
    expect([kg(cord, heavy), kg(heavy, cord)].map((two) => two / one)).toEqual([2, 2])
  })

  test('a box that stands in two phases carries its cords once', () => {
    const twice = answered(job, { boxes: [...boxes, ...boxes] })
    expect(box(twice).items).toEqual(box(answered(job, { boxes })).items)
  })

  test('a build without a body is not answered, and nothing is made up for it', () => {
    const { rules } = answered(job)
    const wanted = job.boxes[0]
    if (wanted === undefined) throw new Error('no box')
    const body = boxBody(wanted, null)
    const haul = designHaul({ job, body, fit: FIT, skin: skinWith([DOOR]), rules })
    const build = { box: 'another', fit: FIT, air: designAir({ job, body, designs: [] }), skin: skinWith([DOOR]), haul }
    const answer = answerHaul({ job, design: { boxes: [], builds: [build], pinned: [] }, bodies: { [body.box]: body }, rules })
    expect(answer).toEqual({ findings: [], workings: [], result: { boxes: [] } })
  })
})

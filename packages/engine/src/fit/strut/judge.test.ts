import { describe, expect, test } from 'vitest'
import type { FitDesign, PointMm } from '../../job/index.ts'
import { ruleSets, rulesFor } from '../../rules/index.ts'
import { frameOf } from './frame.ts'
import { judgeStrut } from './judge.ts'
import { GRAVITY_N_PER_KG, sectionOf } from './section.ts'
import { fitOf, panelOnRails, piece, thing } from './wall.fixture.ts'

const rules = ruleSets.us
const sheet = (thicknessMm: number | null) => ({
  corrugation: thicknessMm === null ? null : { thicknessMm },
})
const body = (thicknessMm: number | null = 1.6) =>
  ({
    sides: {
      left: sheet(thicknessMm),
      right: sheet(thicknessMm),
      roof: sheet(2),
      floor: sheet(null),
      'blind end': sheet(2),
      'door end': sheet(null),
    },
  }) as never
const judge = (fit: FitDesign, thicknessMm: number | null = 1.6) => judgeStrut({ box: 'A', fit, body: body(thicknessMm), rules })
const codes = (fit: FitDesign, code: string) => judge(fit).findings.filter((f) => f.code === code)
const verdict = (fit: FitDesign, code: string) => codes(fit, code).map((f) => f.verdict)

const PER_M = (sectionOf('12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)').massKgPerM + 3) * GRAVITY_N_PER_KG

describe('balance: whatever hangs arrives at the box, standing and on the road', () => {
  test('forces on the welds are the weight and what the road adds, of things, channel and other trades', () => {
    const fit = panelOnRails()
    const frame = frameOf(fit, rules)
    const lengthM = 2 * 2.2 + 2 * 0.514
    frame.cases.forEach((one, c) => {
      const sum = [0, 0, 0]
      for (const [id, states] of frame.states)
        frame.members.get(id)!.supports.forEach(({ fixing }, k) => {
          if (fixing.how === 'channel nut') return
          states[c]!.reactionsN[k]!.forEach((f, i) => {
            sum[i]! += f
          })
        })
      one.g.forEach((g, i) => {
        expect(sum[i]).toBeCloseTo(g * (110 * GRAVITY_N_PER_KG + PER_M * lengthM), 4)
      })
    })
  })
  test('the nuts of a thing carry its weight, share it alike when it hangs even, and the top ones pull by W·e/h', () => {
    const frame = frameOf(panelOnRails(), rules)
    const forces = frame.items[0]!.forces[0]!
    expect(forces).toHaveLength(4)
    const weight = 110 * GRAVITY_N_PER_KG
    for (const one of forces) expect(one.forceN[2]).toBeCloseTo(-weight / 4, 6)
    const pull = forces.reduce((sum, one) => sum + Math.max(0, one.forceN[1]), 0)
    // Middle of mass 75 mm before the face, rails 1000 mm apart; the nuts' own grip takes a thousandth.
    expect(pull).toBeCloseTo((weight * 0.075) / 1, 0)
    expect(forces.reduce((sum, one) => sum + one.forceN[1], 0)).toBeCloseTo(0, 6)
  })
  test('a thing hung off to one side presses its near nuts harder, and turning is balanced', () => {
    const even = panelOnRails()
    const [panel] = even.items
    const off = { ...even, items: [{ ...panel!, atMm: [2023, 85.3, 700] as PointMm, sizeMm: [300, 150, 1200] as PointMm }] }
    const forces = frameOf(off, rules).items[0]!.forces[0]!
    expect(forces.reduce((sum, one) => sum + one.forceN[2], 0)).toBeCloseTo(-110 * GRAVITY_N_PER_KG, 6)
    const xs = forces.map((one) => one.nut.pointMm[0])
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(250, 0)
  })
})

describe('by hand: two rails with a load at two points, as the table of load cases', () => {
  test('moment of a rail under half a panel at its nuts, P·a with the rail’s own weight on top', () => {
    const frame = frameOf(panelOnRails(), rules)
    const state = frame.states.get('rail 1')![0]!
    const [near, far] = frame.items[0]!.hung.nuts.filter((n) => n.piece === 'rail 1').map((n) => n.atM)
    const lengthM = 0.514
    const each = (110 * GRAVITY_N_PER_KG) / 4
    expect(near! + far!).toBeCloseTo(lengthM, 9)
    const bend = each * near! + (PER_M * lengthM ** 2) / 8
    expect(state.across.mostMomentNm).toBeCloseTo(bend, 6)
  })
})

describe('verdicts', () => {
  test('a panel of 110 kg on two rails between two uprights holds everywhere, with its working', () => {
    const { findings, workings } = judge(panelOnRails())
    expect(findings.map((f) => [f.code, f.verdict])).toEqual([
      ['fit/strut-held', 'holds'],
      ['fit/strut-strength', 'holds'],
      ['fit/strut-deflection', 'holds'],
      ['fit/strut-nuts', 'holds'],
      ['fit/strut-fixings', 'holds'],
    ])
    const ids = new Set(workings.map((w) => w.id))
    for (const f of findings) for (const id of f.workings) expect(ids.has(id), id).toBe(true)
    for (const w of workings) for (const s of w.steps) expect(s.rests.place).not.toBe('')
  })
  test('a heavier thing never uses less, and one heavy enough fails', () => {
    let last = 0
    for (const kg of [5, 50, 150, 400, 900, 3000]) {
      const use = codes(panelOnRails(kg), 'fit/strut-strength').map((f) => f.demand!.value as number)
      expect(Math.max(...use)).toBeGreaterThan(last)
      last = Math.max(...use)
    }
    for (const code of ['fit/strut-strength', 'fit/strut-nuts', 'fit/strut-deflection'])
      expect(verdict(panelOnRails(9000), code), code).toContain('fails')
  })
  test('slots keep less than holes, and thinner channel less than thick', () => {
    const use = (over: object) => {
      const fit = panelOnRails()
      const made = judge({ ...fit, strut: fit.strut.map((p) => ({ ...p, ...over })) })
      return made.findings.find((f) => f.code === 'fit/strut-strength')!.demand!.value as number
    }
    expect(use({ pattern: 'slots' })).toBeGreaterThan(use({ pattern: 'holes' }))
    expect(use({ pattern: 'holes' })).toBeGreaterThan(use({ pattern: 'solid' }))
    expect(use({ section: '14 ga 1-5/8 x 1-5/8 (41 x 41, 1.9 mm)' })).toBeGreaterThan(use({}))
  })
  test('nuts in channel of 16 ga are unknown, never holding', () => {
    const thin = '16 ga 1-5/8 x 13/16'
    const fit = fitOf(
      [thing('lamp', [1990, 44 + 20.6, 900], [60, 60, 100], 1, ['u'])],
      [piece('u', [2000, 44, 150], [2000, 44, 1400], { section: thin })],
    )
    expect(verdict(fit, 'fit/strut-nuts')).toEqual(['unknown'])
  })
  test('a beam longer than the load tables without a brace is unknown', () => {
    const fit = fitOf(
      [thing('lamp', [2100, 85.3, 950], [400, 60, 100], 3, ['r'])],
      [piece('r', [500, 44, 1000], [4500, 44, 1000], { use: 'rail' })],
    )
    expect(verdict(fit, 'fit/strut-strength')).toEqual(['unknown'])
  })
  test('what floats is named with its gap: beside its channel, past its end, off its face, on nothing', () => {
    const on = (at: PointMm, hangsOn = ['u']) =>
      codes(
        fitOf([thing('box', at, [200, 100, 200], 4, hangsOn)], [piece('u', [2000, 44, 150], [2000, 44, 1400])]),
        'fit/strut-held',
      )
    expect(on([1900, 85.3, 500]).map((f) => f.verdict)).toEqual(['holds'])
    expect(on([2050, 85.3, 500])[0]!.said).toMatch(/misses u by 29.3 mm across the channel/)
    expect(on([1900, 85.3, 1500])[0]!.said).toMatch(/misses u by 100 mm along the channel/)
    expect(on([1900, 125.3, 500])[0]!.said).toMatch(/misses u by 40 mm off its face/)
    expect(on([1900, 85.3, 500], ['v'])[0]!.said).toMatch(/no such piece/)
    expect(on([1900, 85.3, 500], [])[0]!.said).toMatch(/names no channel/)
  })
  test('a piece held at one point fails, and a nut that sits on no other channel', () => {
    const one = piece('u', [2000, 44, 150], [2000, 44, 1400], { fixings: [{ atMm: [2000, 44, 150], how: 'weld to rail' }] })
    expect(codes(fitOf([], [one]), 'fit/strut-held')[0]).toMatchObject({ verdict: 'fails', subject: 'A u' })
    const lone = piece('r', [2000, 44, 900], [2500, 44, 900], {
      use: 'rail',
      fixings: [2000, 2500].map((x) => ({ atMm: [x, 44, 900] as PointMm, how: 'channel nut' as const })),
    })
    expect(codes(fitOf([], [lone]), 'fit/strut-held').every((f) => f.verdict === 'fails')).toBe(true)
    expect(verdict(fitOf([], []), 'fit/strut-held')).toEqual(['unknown'])
  })
  test('a bolt through the roof fails whatever it holds; in a wall of unknown sheet it is unknown; thinner sheet holds less', () => {
    const bolted = (side: 'roof' | 'left', thicknessMm: number | null) => {
      const ends: readonly [PointMm, PointMm] =
        side === 'roof'
          ? [
              [2000, 100, 2540],
              [2000, 900, 2540],
            ]
          : [
              [2000, 44, 150],
              [2000, 44, 1100],
            ]
      const p = piece('u', ends[0], ends[1], { side, fixings: ends.map((atMm) => ({ atMm, how: 'bolt through flat' as const })) })
      return judge(fitOf([], [p]), thicknessMm).findings.filter((f) => f.code === 'fit/strut-fixings')
    }
    expect(bolted('roof', 2).map((f) => f.verdict)).toEqual(['fails', 'fails'])
    expect(bolted('left', null).map((f) => f.verdict)).toEqual(['unknown', 'unknown'])
    expect(bolted('left', 1.6)[0]!.demand!.value).toBeGreaterThan(bolted('left', 2)[0]!.demand!.value as number)
  })
  test('a weld to a pad counts the thinner of channel and sheet, a weld to a rail the channel; unknown sheet is the thinnest', () => {
    const run = (how: 'weld to pad' | 'weld to rail', thicknessMm: number | null) => {
      const ends: readonly [PointMm, PointMm] = [
        [2000, 44, 150],
        [2000, 44, 1400],
      ]
      const p = piece('u', ends[0], ends[1], { fixings: ends.map((atMm) => ({ atMm, how })) })
      const fit = fitOf([thing('box', [1900, 85.3, 500], [200, 300, 400], 150, ['u'])], [p])
      return judge(fit, thicknessMm).findings.find((f) => f.code === 'fit/strut-fixings')!.demand!.value as number
    }
    expect(run('weld to pad', 1.6)).toBeGreaterThan(run('weld to pad', 2))
    expect(run('weld to pad', null)).toBe(run('weld to pad', 1.6))
    expect(run('weld to pad', 4)).toBe(run('weld to rail', 1.6))
  })
  test('the smallest bolt that holds is chosen, and its torque goes with it', () => {
    expect(judge(panelOnRails(20)).nuts[0]).toMatchObject({ bolt: '3/8 in', count: 4 })
    const heavy = judge(panelOnRails(700)).nuts[0]!
    expect(heavy.bolt).toBe('1/2 in')
    expect(heavy.torqueNm).toBeCloseTo(67.8, 1)
  })
  test('the road is the rule set’s: more forward asks more of the same strut', () => {
    const use = (of: typeof rules) =>
      judgeStrut({ box: 'A', fit: panelOnRails(), body: body(), rules: of }).findings.find((f) => f.code === 'fit/strut-nuts')!
        .demand!.value
    const rough = {
      ...rulesFor('us'),
      build: {
        ...rules.build,
        securing: { ...rules.build.securing, value: { ...rules.build.securing.value, forwardG: 3, sideG: 3 } },
      },
    }
    expect(use(rough)).toBeGreaterThan(use(rules) as number)
  })
  test('the order in which things and pieces are written changes nothing', () => {
    const fit = panelOnRails()
    expect(judge({ ...fit, strut: fit.strut.toReversed() }).findings).toEqual(judge(fit).findings)
  })
})

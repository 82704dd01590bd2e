import { expect, test } from 'vitest'
import { ruleSets } from '../../rules/index.ts'
import { metalOf, strutIn } from '../layout/metal.ts'
import { judgeStrut } from './judge.ts'
import { judgeMetal } from './metal-findings.ts'
import { sectionOf } from './section.ts'
import { panelOnRails } from './wall.fixture.ts'

const steel = panelOnRails(60)
const aluminium = { ...steel, strut: strutIn('aluminium', steel.strut) }
const pin = (value: string) => ({ path: 'strut.A.metal', value })
const sheet = { corrugation: { thicknessMm: 1.6 } }
const body = { sides: { left: sheet, right: sheet, roof: sheet, floor: sheet, 'blind end': sheet, 'door end': sheet } } as never
const judged = (fit: typeof steel, code: string) =>
  judgeStrut({ box: 'A', fit, body, rules: ruleSets.us }).findings.filter((f) => f.code === code)
const metal = (fit: typeof steel, pins: Parameters<typeof metalOf>[0], corrosivity: string | null) =>
  judgeMetal({
    box: 'A',
    strut: fit.strut,
    pins,
    corrosivity,
    moneyPerM: (section) => (section.startsWith('aluminium') ? 16 : 9),
    currency: 'money',
  }).findings.map((f) => [f.code, f.verdict, f.said] as const)

test('a pin changes metal, section and every weld', () => {
  expect([
    metalOf([], 'A'),
    metalOf([pin('aluminium')], 'A'),
    metalOf([pin('aluminium')], 'B'),
    metalOf([pin('tin')], 'A'),
  ]).toEqual(['steel', 'aluminium', 'steel', null])
  expect(aluminium.strut.every((p) => sectionOf(p.section).metal === 'aluminium')).toBe(true)
  expect(aluminium.strut.flatMap((p) => p.fixings).filter((f) => f.how.startsWith('weld'))).toEqual([])
  expect(strutIn('steel', steel.strut)).toBe(steel.strut)
})

test('the same panel: aluminium uses more of its strength and gives further; its nuts are unknown, not fine', () => {
  for (const code of ['fit/strut-strength', 'fit/strut-deflection'])
    expect(judged(aluminium, code)[0]!.demand!.value).toBeGreaterThan(judged(steel, code)[0]!.demand!.value as number)
  expect(judged(steel, 'fit/strut-nuts')[0]!.verdict).toBe('holds')
  expect(judged(aluminium, 'fit/strut-nuts')[0]!.verdict).toBe('unknown')
})

test('studs on pads hold, thinner sheet less; aluminium that is to be welded to steel fails', () => {
  const onPads = { ...aluminium, strut: aluminium.strut.filter((p) => p.use === 'upright') }
  const use = judged({ ...onPads, items: [] }, 'fit/strut-fixings')[0]!
  expect([use.verdict, use.said]).toEqual(['holds', expect.stringMatching(/M10 stud on a pad, isolated/)])
  const welded = { ...steel, items: [], strut: steel.strut.map((p) => ({ ...p, section: aluminium.strut[0]!.section })) }
  expect(judged(welded, 'fit/strut-fixings').some((f) => f.verdict === 'fails' && /not welded to steel/.test(f.said))).toBe(true)
})

test('what is said: isolate aluminium; in salt air the other metal with mass and money; a pin that is no metal', () => {
  expect(metal(steel, [], 'C3')).toEqual([])
  expect(metal(steel, [], 'C5, salt spray')).toEqual([
    ['fit/strut-metal', 'tight', expect.stringMatching(/zinc does not last.*in steel 1\d.*in aluminium 5/)],
  ])
  expect(metal(aluminium, [pin('aluminium')], null)).toEqual([
    ['fit/strut-metal', 'tight', expect.stringMatching(/sleeve and a sheet/)],
  ])
  expect(metal(steel, [pin('aluminium')], null)).toEqual([
    ['fit/pin-kept', 'fails', expect.stringMatching(/aluminium is pinned/)],
  ])
  expect(metal(steel, [pin('tin')], null)).toEqual([['fit/pin-unread', 'unknown', expect.stringMatching(/“tin”/)]])
})

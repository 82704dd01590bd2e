import { expect, test } from 'vitest'
import { rulesFor } from '../../rules/index.ts'
import { setCurrent, tripOnSet } from './clearing.ts'
import { decrementA } from './decrement.ts'
import { answerFaults } from './index.ts'
import { boxLevels } from './levels.ts'
import { circuit, plug, set, told, utility, yard } from './yard.fixture.ts'

const wye = rulesFor('us').systems.find((s) => s.kind === 'wye' && s.lineLineV === 208)!
const temperatures = { coldC: 20, hotC: 75, cordHotC: 75, deviceColdC: 40, deviceHotC: 40, assumed: [] }
const onSet = (sets: number) => {
  const inputs = yard({
    system: wye.id,
    offers: [set({ ratedKVA: 125, sets, subtransientPct: told(12) }, { system: wye.id })],
  })
  return boxLevels(inputs.design.boxes[0]!, inputs, {
    ...{ mode: 'own set', offer: 'set', temperatures, motorRatio: 0, voltageFactor: { max: 1, min: 1 } },
  })
}

test('one cycle after a fault at its terminals a set drives what the decrement formula says (table generator-react)', () => {
  const levels = onSet(1)
  const at = levels.set!
  const formula = {
    ...{ ratedA: at.ratedA, subtransientPu: at.subtransientPu, transientPu: at.transientPu, steadyPu: at.steadyPu },
    ...{ subtransientS: at.subtransientS, transientS: at.transientS, sustainedRatio: null },
  }
  const current = setCurrent(levels.service, 'three-phase', at, 1, 60)!
  // The loop keeps the stator's resistance, a tenth of X″d: half a per cent.
  expect(current.subtransientA / decrementA(formula, 0)).toBeCloseTo(1, 1)
  expect(Math.abs(current.cycleA / decrementA(formula, 1 / 60) - 1)).toBeLessThan(0.04)
  expect(current.cycleA).toBeLessThan(current.subtransientA * 0.8)
  expect(current.boostedA / at.ratedA).toBeCloseTo(3, 6)
})

test('a current that is sure of the magnetic part at first but not one cycle later opens thermally, or never', () => {
  const band = rulesFor('us').tripBand('us thermal-magnetic', 20)
  const task = { band, ratingA: 20, coldC: 40, hotC: 40 }
  const current = { subtransientA: 460, transientA: 300, steadyA: 15, boostedA: 100, cycleA: 350 }
  expect(tripOnSet(task, current, true)).toMatchObject({ by: 'thermal', sure: false })
  expect(tripOnSet(task, current, false)).toMatchObject({ by: 'nothing', slowS: Infinity })
  expect(tripOnSet(task, { ...current, cycleA: 401 }, false)).toMatchObject({ by: 'magnetic', sure: true })
})

test('two sets count together for the highest fault and alone for the lowest', () => {
  const [one, two] = [onSet(1), onSet(2)]
  const strong = (l: typeof one) => Math.hypot(l.service.strong.threePhase!.re, l.service.strong.threePhase!.im)
  const weak = (l: typeof one) => Math.hypot(l.service.weak.threePhase!.re, l.service.weak.threePhase!.im)
  expect(strong(one) / strong(two)).toBeCloseTo(2, 9)
  expect(weak(one) / weak(two)).toBeCloseTo(1, 9)
})

test('a motor behind a drive feeds nothing back, one started direct adds four times its current (us)', () => {
  const panelA = (start: 'direct' | 'drive' | null) => {
    const motor = start === null ? {} : { kind: 'motor' as const, currentA: 10, motor: { start, fullLoadA: 10 } }
    const answer = answerFaults(yard({ plugs: [plug('H1', motor)], circuits: [circuit({ id: 'C1', plug: 'H1' })] }))
    return answer.result.boxes[0]!.sources[0]!.buses.find((b) => b.id === 'panel')!.highest!
  }
  expect(panelA('drive').currentA).toBe(panelA(null).currentA)
  expect(panelA('direct').currentA - panelA(null).currentA).toBeCloseTo(40, 6)
  expect(panelA('direct').xOverRRatio).toBeCloseTo(panelA(null).xOverRRatio, 9)
})

test('an own transformer is taken at nine tenths of its impedance for the most and eleven tenths for the least', () => {
  const wire = { size: '6 AWG', metal: 'cu' as const, insulation: 'THWN-2' }
  const run = { lengthM: 0, line: wire, neutral: null, protective: wire, raceway: { kind: 'EMT', trade: '1' }, sets: 1 }
  const primary = { ratingA: 90, poles: 3 as const, family: 'us thermal-magnetic', interruptingKA: 14 }
  const primarySystem = rulesFor('us').systems.find((s) => s.lineLineV === 480)!
  const inputs = yard({
    system: wye.id,
    offers: [
      utility({
        system: primarySystem.id,
        distanceM: 0,
        transformer: { kVA: 1e9, impedancePct: told(1), xOverR: told(3), phases: 3 },
      }),
    ],
    box: {
      transformer: {
        ...{
          kVA: 75,
          primaryV: 480,
          secondaryV: 208,
          impedancePct: 4.5,
          xOverR: 1.3,
          phases: 3,
          noLoadLossW: 200,
          fullLoadLossW: 2000,
        },
        ...{ primary, primaryRun: run },
      },
    },
  })
  const levels = boxLevels(inputs.design.boxes[0]!, inputs, {
    ...{ mode: 'network', offer: 'line', temperatures, motorRatio: 0, voltageFactor: { max: 1, min: 1 } },
  })
  const z = (end: 'strong' | 'weak') =>
    Math.hypot(levels.transformer![end].threePhase!.re, levels.transformer![end].threePhase!.im)
  const plate = (0.045 * 208 * 208) / 75_000
  expect(z('strong') / plate).toBeCloseTo(0.9, 6)
  expect(z('weak') / plate).toBeCloseTo(1.1, 6)
})

test('conductor heat: a thin cord on a large device is unknown or fails, the circuit’s own wire is at most near', () => {
  const find = (size: string, ratingA: number) =>
    answerFaults(
      yard({
        circuits: [
          circuit({
            ...{ id: 'C1', plug: 'H1', cordSize: size, cordM: 40 },
            more: { device: { ratingA, poles: 1, family: 'us thermal-magnetic', interruptingKA: 22 } },
          }),
        ],
      }),
    ).findings.find((f) => f.code === 'faults/conductor-heat')!
  expect(find('12 AWG', 20).verdict).toBe('tight')
  expect(['unknown', 'fails']).toContain(find('14 AWG', 30).verdict)
  expect(find('14 AWG', 30).mends[0]?.path).toBe('cords.H1.size')
  // 12 AWG behind 50 A is no wire of that rating: its listing proves nothing.
  expect(['unknown', 'fails']).toContain(find('8 AWG', 50).verdict)
})

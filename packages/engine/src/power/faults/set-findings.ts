import { type Finding, put, source, step, type Verdict } from '../../kernel/index.ts'
import { type Asked, ampere, inAmpere, inSeconds, lazyWorking } from './asked.ts'
import { BOOST_RATIO } from './clearing.ts'
import type { CircuitTrip } from './clearing-findings.ts'
import { belowS, decrementA, type SetReactance, sustainedA } from './decrement.ts'
import type { Answered } from './interrupting.ts'
import type { BoxLevels, SetAt } from './levels.ts'
import type { Decrement } from './result.ts'

/** Times of the curve, from the first cycle to what stays. */
const AT_S = [0.005, 0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.2, 0.3, 0.5, 1, 2, 5]

const reactanceOf = (set: SetAt, boost: boolean): SetReactance => ({
  ratedA: set.ratedA,
  subtransientPu: set.subtransientPu,
  transientPu: set.transientPu,
  steadyPu: set.steadyPu,
  subtransientS: set.subtransientS,
  transientS: set.transientS,
  sustainedRatio: boost ? BOOST_RATIO : null,
})

/** Short-circuit current of the set at its terminals as it dies away; without boost unless it is known to have it. */
export function decrementOf(levels: BoxLevels): Decrement | null {
  const { set } = levels
  if (set === null) return null
  const reactance = reactanceOf(set, set.boost === true)
  return {
    offer: levels.offer,
    ratedA: set.ratedA,
    boost: set.boost,
    points: AT_S.map((t) => [t, decrementA(reactance, t)] as const),
    belowRatedS: belowS(reactance, set.ratedA),
    sustainedA: sustainedA(reactance),
  }
}

/** One finding a box on a set: the current collapses before a thermal trip can act; which circuits still open at once. */
export function setFindings(asked: Asked, levels: BoxLevels, trips: readonly CircuitTrip[]): Answered {
  const decrement = decrementOf(levels)
  const { set } = levels
  if (decrement === null || set === null) return { findings: [], workings: [] }
  const late = trips.filter((t) => !t.short.every((s) => s.sure))
  const worst = late.reduce<CircuitTrip | null>(
    (a, b) => (a === null || b.least.shortA / b.circuit.device.ratingA < a.least.shortA / a.circuit.device.ratingA ? b : a),
    null,
  )
  const verdict: Verdict = set.boost === true || late.length === 0 ? 'holds' : set.boost === null ? 'unknown' : 'tight'
  const fall =
    decrement.belowRatedS === null
      ? `its excitation keeps up ${inAmpere(decrement.sustainedA)}`
      : `it falls below its rated ${inAmpere(set.ratedA)} within ${inSeconds(decrement.belowRatedS)}${set.boost === null ? ', unless its excitation is boosted' : ''}`
  const tail =
    worst === null
      ? 'Every circuit opens at once by its magnetic part.'
      : set.boost === true
        ? `${late.length} of ${trips.length} circuits open by their thermal part.`
        : `${late.length} of ${trips.length} circuits have no sure magnetic trip at the end of their cord (${worst.place.plug ?? worst.circuit.id}: ${inAmpere(worst.least.shortA)} at a ${worst.circuit.device.ratingA} A device), and no thermal part opens on what is left. Ask for boost or permanent-magnet excitation, and rely on bonding and residual devices for faults to earth.`
  const id = asked.name(`${asked.box.box}/set-current`)
  const finding: Finding = {
    code: 'faults/set-current',
    question: 'faults',
    subject: asked.box.box,
    verdict,
    basis: 'physics',
    said: `A short at the set starts at ${inAmpere(set.ratedA / set.subtransientPu)}; ${fall}. ${tail}${verdict === 'unknown' ? ' Whether it has boost, the maker or hirer of the set can tell.' : ''}`,
    demand: ampere('I', worst?.least.shortA ?? set.ratedA / set.subtransientPu),
    limit: ampere('I rated', set.ratedA),
    provenance: 'common practice',
    confirm: true,
    assumed: [
      ...new Set([...levels.assumed, ...(set.boost === null ? [`facts.supply.${levels.offer}.generator.boostExcitation`] : [])]),
    ],
    workings: [id],
    mends: worst === null || verdict === 'holds' ? [] : heavierCords(asked, worst),
    decides: 'the licensed electrician with the maker of the set',
    caution: 'A fault that no device opens stays until somebody stops the set.',
  }
  const reactance = reactanceOf(set, false)
  const rests = source('table generator-react; decrement of a synchronous machine, IEEE 141', 'common practice')
  return {
    findings: [finding],
    workings: [
      lazyWorking({
        id,
        title: `Short-circuit current of ${levels.offer} as it dies away`,
        steps: () => [
          step(
            'I″',
            'Ir/x″',
            [ampere('Ir', set.ratedA), put('x″', set.subtransientPu, 'pu')],
            set.ratedA / set.subtransientPu,
            'A',
            rests,
          ),
          step(
            'I′',
            'Ir/x′',
            [ampere('Ir', set.ratedA), put('x′', set.transientPu, 'pu')],
            set.ratedA / set.transientPu,
            'A',
            rests,
          ),
          step('I', 'Ir/x', [ampere('Ir', set.ratedA), put('x', set.steadyPu, 'pu')], sustainedA(reactance), 'A', rests),
          ...[0.02, 0.1, 1].map((t) =>
            step(
              `I(${t} s)`,
              '(I″ − I′)·e^(−t/T″) + (I′ − I)·e^(−t/T′) + I',
              [put('T″', set.subtransientS, 's'), put('T′', set.transientS, 's')],
              decrementA(reactance, t),
              'A',
              rests,
            ),
          ),
        ],
      }),
    ],
  }
}

function heavierCords(asked: Asked, worst: CircuitTrip): Finding['mends'] {
  const cord = worst.circuit.cords.find((c) => c.plug === worst.place.plug)
  const sizes = asked.inputs.rules.cordSizes()
  const next = cord === undefined ? undefined : sizes[sizes.indexOf(cord.size) + 1]
  return cord === undefined || next === undefined
    ? []
    : [
        {
          path: `cords.${cord.plug}.size`,
          value: next,
          words: `${next} cord instead of ${cord.size}: more of the first current reaches the device`,
        },
      ]
}

import { type Source, source } from '../../kernel/index.ts'
import type { Ends } from '../needs/index.ts'
import { ends } from '../needs/index.ts'

/** Loss of a rating with height or heat: so much per step above a start, both ends where makers differ. */
interface Rule {
  readonly perStepFrac: Ends
  readonly step: number
  readonly above: Ends
  readonly rests: Source
}

const NATURAL_HEIGHT: Rule = {
  perStepFrac: { low: 0.035, high: 0.035 },
  step: 300,
  above: { low: 150, high: 150 },
  rests: source('altitude, naturally aspirated: 3.5 % per 300 m above 150 m (ISO 3046-1 practice)', 'memory'),
}
const TURBO_HEIGHT: Rule = {
  perStepFrac: { low: 0.025, high: 0.04 },
  step: 300,
  above: { low: 1000, high: 1500 },
  rests: source('altitude, turbocharged: 2.5 to 4 % per 300 m above 1000 to 1500 m (maker sheets)', 'memory'),
}
const NATURAL_HEAT: Rule = {
  perStepFrac: { low: 0.01, high: 0.02 },
  step: 5.5,
  above: { low: 25, high: 25 },
  rests: source('air over 25 °C: 1 to 2 % per 5.5 K', 'memory'),
}
const TURBO_HEAT: Rule = {
  perStepFrac: { low: 0.01, high: 0.02 },
  step: 5.5,
  above: { low: 40, high: 40 },
  rests: source('air over 40 °C: 1 to 2 % per 5.5 K', 'memory'),
}
const ALTERNATOR_HEIGHT: Rule = {
  perStepFrac: { low: 0.01, high: 0.01 },
  step: 100,
  above: { low: 1000, high: 1000 },
  rests: source('alternator: 1 % per 100 m above 1000 m', 'memory'),
}
const ALTERNATOR_HEAT: Rule = {
  perStepFrac: { low: 0.005, high: 0.006 },
  step: 1,
  above: { low: 40, high: 40 },
  rests: source('alternator: 0.5 to 0.6 % per K over 40 °C', 'memory'),
}

/** Share that is left by one rule, least and most. */
function leftFrac(rule: Rule, value: number): Ends {
  const lost = (per: number, above: number) => (per * Math.max(0, value - above)) / rule.step
  return ends(
    Math.max(0, 1 - lost(rule.perStepFrac.high, rule.above.low)),
    Math.max(0, 1 - lost(rule.perStepFrac.low, rule.above.high)),
  )
}

export interface Place {
  readonly elevationM: number
  /** Hottest air; null: nobody said. */
  readonly hottestC: number | null
}

export interface Derated {
  readonly kW: Ends
  readonly kVA: Ends
  readonly rests: readonly Source[]
}

/**
 * What a set gives where it stands: engine kW by height and heat, alternator kVA by its own. `turbo` null: both kinds, both ends.
 * Without a hottest temperature the heat part is left out of the high end and taken at 45 °C for the low one.
 * @source table `generator-derate`; ISO 3046-1, ISO 8528-1. Provenance: memory
 */
export function deratedSet(
  set: { readonly ratedKW: number; readonly ratedKVA: number; readonly turbo: boolean | null },
  place: Place,
): Derated {
  const kinds = set.turbo === null ? [false, true] : [set.turbo]
  const heats = place.hottestC === null ? [NO_HEAT_C, UNKNOWN_HEAT_C] : [place.hottestC]
  let low = Infinity
  let high = 0
  const rests: Source[] = []
  for (const turbo of kinds) {
    const height = turbo ? TURBO_HEIGHT : NATURAL_HEIGHT
    const heat = turbo ? TURBO_HEAT : NATURAL_HEAT
    rests.push(height.rests, heat.rests)
    for (const air of heats) {
      low = Math.min(low, leftFrac(height, place.elevationM).low * leftFrac(heat, air).low)
      high = Math.max(high, leftFrac(height, place.elevationM).high * leftFrac(heat, air).high)
    }
  }
  const alternator = heats.map((air) => ({
    low: leftFrac(ALTERNATOR_HEIGHT, place.elevationM).low * leftFrac(ALTERNATOR_HEAT, air).low,
    high: leftFrac(ALTERNATOR_HEIGHT, place.elevationM).high * leftFrac(ALTERNATOR_HEAT, air).high,
  }))
  rests.push(ALTERNATOR_HEIGHT.rests, ALTERNATOR_HEAT.rests)
  return {
    kW: ends(set.ratedKW * low, set.ratedKW * high),
    kVA: ends(
      set.ratedKVA * Math.min(...alternator.map((a) => a.low)),
      set.ratedKVA * Math.max(...alternator.map((a) => a.high)),
    ),
    rests,
  }
}

/** Air at which nothing is lost, and a hot day where nobody said how hot it gets. Assumed. */
const NO_HEAT_C = 25
const UNKNOWN_HEAT_C = 45

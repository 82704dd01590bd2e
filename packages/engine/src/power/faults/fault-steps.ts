import { type Complex, put, type Step, source, step } from '../../kernel/index.ts'
import { pathIn, type Target } from '../path.ts'
import type { Segment } from '../segments.ts'
import type { BoxLevels, Place } from './levels.ts'
import { drivingV, kindA, loopOf } from './place.ts'
import type { FaultKind } from './result.ts'

const SUM = source('R and X summed apart, Ohm’s law', 'computed')
const SEQUENCE = source('IEC 60909-0 clause 8; by loop', 'memory')
const MOTORS = source('table motor-contribution', 'memory')

/** Lines from the source to the current of one kind of fault at one place. */
export function faultSteps(
  levels: BoxLevels,
  place: Place,
  kind: FaultKind,
  end: 'strong' | 'weak',
  target: Target,
): readonly Step[] {
  const tree = levels.trees[end]
  const out: Step[] = []
  for (const segment of pathIn(tree, target)) out.push(...segment.steps)
  for (const segment of pathIn(tree, target)) if (segment.kind !== 'source') out.push(returnStep(segment))
  const loops = place[end]
  const z = loopOf(loops, kind)
  if (z === null) return out
  const c = end === 'strong' ? levels.voltageFactor.max : levels.voltageFactor.min
  out.push(step('Z', LOOP_WORDS[kind], [put('c', c), put('at', end === 'strong' ? 'lowest' : 'highest')], pair(z), 'mΩ', SUM))
  if (end === 'strong' && place.motorA > 0) {
    out.push(step('I_M', 'ratio · Σ running motors; the loop is lowered so that they are in it', [], place.motorA, 'A', MOTORS))
  }
  const v = drivingV(place.system, kind)
  const currentA = kindA(place.system, loops, kind, c) ?? Number.NaN
  out.push(
    step(
      SYMBOL[kind],
      kind === 'three-phase' ? 'c·V/(√3·|Z|)' : 'c·V/|Z|',
      [put('c', c), put('V', v, 'V'), put('|Z|', Math.hypot(z.re, z.im), 'Ω')],
      currentA,
      'A',
      SEQUENCE,
    ),
  )
  return out
}

function returnStep(segment: Exclude<Segment, { readonly kind: 'source' }>): Step {
  if (segment.kind === 'own transformer') {
    return step(
      'Z',
      'Z·(V₂/V₁)² + Z_T; zero sequence ends at its winding',
      [put('V₂/V₁', segment.ratio)],
      pair(segment.z1),
      'mΩ per line',
      SUM,
    )
  }
  const back = segment.earthReturn
  const puts = [
    put('neutral', segment.neutral === null ? 'none' : pair(segment.neutral.ohm), 'mΩ'),
    put('to earth', back === null ? 'through the ground' : pair(back.ohm), 'mΩ'),
  ]
  return step('R + jX', `${segment.said}, at ${segment.temperatureC} °C`, puts, pair(segment.phase.ohm), 'mΩ', SUM)
}

const LOOP_WORDS: Readonly<Record<FaultKind, string>> = {
  'three-phase': 'one line: source + Σ lines',
  'line-line': 'line and line: source + Σ 2·line',
  'line-neutral': 'line and neutral: source + Σ (line + neutral)',
  'line-earth': 'line and protective conductor: source + Σ (line + return)',
}

const SYMBOL: Readonly<Record<FaultKind, string>> = {
  'three-phase': 'I_3',
  'line-line': 'I_LL',
  'line-neutral': 'I_LN',
  'line-earth': 'I_LE',
}
export const KIND_WORDS: Readonly<Record<FaultKind, string>> = {
  'three-phase': 'three-phase',
  'line-line': 'line to line',
  'line-neutral': 'line to neutral',
  'line-earth': 'line to earth',
}

const milli = (n: number): string => (n * 1000).toPrecision(4)
const pair = (z: Complex): string => `${milli(z.re)} + j${milli(z.im)}`

import { source, weakest } from '../../kernel/index.ts'
import type { MeasuredSaid } from '../facts/measured.ts'
import { line, type Noted, threeDigits } from './finding.ts'

/** Findings that a thing measured on the box decides, by their codes. */
const DECIDES: Readonly<Record<MeasuredSaid['what'], readonly string[]>> = {
  leakage: ['air/roof-frost', 'air/drip', 'air/dew-on-gear', 'air/humid', 'air/vents-in-cold'],
  'roof-absorptance': ['air/hot', 'air/breaker-heat'],
  'gear-mass': ['air/hot', 'air/dew-on-gear'],
}

/** The finding with what was measured on the box behind it, by whom and when; as it is where nothing measured decides it. */
export function withMeasured(one: Noted, measured: readonly MeasuredSaid[]): Noted {
  const own = measured.filter((m) => DECIDES[m.what].includes(one.finding.code))
  if (own.length === 0) return one
  const { finding, working } = one
  const said = own.map(
    (m) =>
      ` Of the box ${m.words} was measured by ${m.by} on ${m.on}: ${threeDigits(m.value)} ${m.unit}, from ${threeDigits(m.low)} to ${threeDigits(m.high)}.`,
  )
  const steps = own.map((m) =>
    line(
      m.what,
      m.words,
      [['low', m.low, m.unit] as const, ['high', m.high, m.unit] as const],
      m.value,
      m.unit,
      source(`measured by ${m.by} on ${m.on}`, 'measured'),
    ),
  )
  return {
    finding: { ...finding, said: `${finding.said}${said.join('')}`, provenance: weakest(finding.provenance, 'measured') },
    working: { ...working, steps: [...working.steps, ...steps] },
  }
}

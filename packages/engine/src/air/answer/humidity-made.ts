import { source, weakest } from '../../kernel/index.ts'
import { line, type Noted } from './finding.ts'
import type { BoxRuns } from './runs.ts'

/** Findings that the humidity outside decides. */
const BY_HUMIDITY: readonly string[] = [
  ...['air/roof-frost', 'air/drip', 'air/dew-on-gear', 'air/humid', 'air/mould', 'air/corrosion', 'air/fan-on-frost-night'],
]

/** How the humidity of a file was come by, where no reading of it stands behind all its hours. Null: it was read, or no file was given. */
function madeHow({ weather, used }: Pick<BoxRuns, 'weather' | 'used'>): string | null {
  const origin = weather.origins.vapourPa
  if (used.from !== 'file' || origin === undefined) return null
  return origin.from === 'generated' || GAPS.test(origin.how) ? origin.how : null
}
const GAPS = /long gaps from/

/** A file that holds no humidity, or long gaps in it, says nothing of damp: what was filled in its place decides nothing. */
export function withHumidity(one: Noted, runs: Pick<BoxRuns, 'weather' | 'used'>): Noted {
  const how = madeHow(runs)
  if (how === null || !BY_HUMIDITY.includes(one.finding.code)) return one
  const { finding, working } = one
  const filled = line(
    'φ outside',
    how,
    [],
    'filled in',
    '',
    source(`humidity not read from ${runs.used.named}`, 'common practice'),
  )
  return {
    finding: {
      ...{ ...finding, verdict: 'unknown', provenance: weakest(finding.provenance, 'common practice') },
      said: `${finding.said} The humidity outside was not read from ${runs.used.named}: it was filled in (${how}), so damp is not known from it.`,
      assumed: [...new Set([...finding.assumed, 'weather'])],
    },
    working: { ...working, steps: [...working.steps, filled] },
  }
}

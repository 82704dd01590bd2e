import { formatNumber, formatQuantity } from '../kernel/index.ts'
import type { FeedersWeighed } from '../power/supply/result.ts'
import type { SharedService } from './feeders.ts'
import type { Option } from './options.ts'
import type { Candidate } from './types.ts'

interface Tried extends Candidate {
  readonly option: Option
}

/**
 * One service with feeders against a service for each box, in words: the best of the way not taken and what it would cost, or why it was
 * never worked out. `order`: all that were worked out, best first.
 */
export function feedersWeighed(
  shared: SharedService,
  order: readonly Tried[],
  left: readonly { readonly id: string; readonly why: string }[],
  currency: string,
): FeedersWeighed {
  const { boxes } = shared
  const [chosen] = order
  if (shared.feeders === null || chosen === undefined) return { boxes, weighed: null, why: shared.why }
  const taken = chosen.option.feeders !== null
  const other = order.find((t) => (t.option.feeders !== null) !== taken)
  const lengths = [...shared.feeders].map(([id, from]) => `${formatQuantity(from.lengthM, 'm')} from ${from.box} to ${id}`)
  const feeders = `with ${lengths.length === 1 ? 'a feeder' : 'feeders'} of ${lengths.join(', ')}`
  const way = taken ? 'A service for each' : `One service ${feeders}`
  if (other !== undefined) {
    const said = `${way}, at best ${other.id}: ${[...failsMore(other, chosen), costs(other, chosen, currency)].join('; ')}.`
    return { boxes, weighed: taken ? `It is one service ${feeders}. ${said}` : said, why: null }
  }
  const why = left.find((l) => l.id.endsWith(shared.id))?.why
  return { boxes, weighed: null, why: why === undefined ? `no supply is left for it` : why }
}

function failsMore(other: Candidate, chosen: Candidate): readonly string[] {
  const more = other.fails.filter((f) => !chosen.fails.includes(f))
  if (more.length === 0) return []
  return [`${more.length === 1 ? 'there fails' : `${more.length} things fail there, first`} ${more[0]}`]
}

function costs(other: Candidate, chosen: Candidate, currency: string): string {
  if (other.costMoney === null || chosen.costMoney === null) return 'what it would cost is not known'
  const more = Math.round(other.costMoney - chosen.costMoney)
  const floor = other.costIsFloor || chosen.costIsFloor ? ' as far as prices are told' : ''
  return more === 0 ? `as dear${floor}` : `${formatNumber(Math.abs(more))} ${currency} ${more > 0 ? 'dearer' : 'cheaper'}${floor}`
}

import { dayNumberD, isoDay, THIN, weekdayOf } from '@plugstead/engine/kernel'
import { area, box, circle, type Item, line, type Point, type Scene, text } from './scene.ts'

export interface ChainBar {
  readonly name: string
  /** First and last day, ISO 8601. */
  readonly from: string
  readonly to: string
  /** Latest first and last day that keep the day needed; null: not known. */
  readonly latestFrom: string | null
  readonly latest: string | null
  /** Nine of ten by this day; null: not drawn. */
  readonly nineInTen: string | null
  readonly critical: boolean
  readonly interim: boolean
  /** Places in the list of the bars it waits for. */
  readonly after: readonly number[]
}

export interface DatedChain {
  readonly widthMm: number
  /** Height of a row; 2.9 is the least that its lettering bears. */
  readonly rowMm: number
  readonly bars: readonly ChainBar[]
  readonly closed: readonly { readonly what: string; readonly from: string; readonly to: string }[]
  readonly needed: string | null
  readonly today: string
}

const LEFT_MM = 33
const RIGHT_MM = 9
const HEAD_MM = 12
const FOOT_MM = 7
const BAR_MM = 2.2
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec']
/** Of what is closed, one hatch each; more kinds share the last. */
const GROUND = {
  road: 'back slant',
  digging: 'dots',
  pads: 'dots',
  site: 'upright wide',
  shop: 'slant wide',
  offices: 'at 0',
} as const

/**
 * Days across, a task a row. Hollow bar: a task; with slots: it drives the end; dots: interim; thin line with ticks: slack, in days;
 * upright stroke: latest start; round dots: to the day by which nine of ten draws have it done. Closed times are ground through all rows.
 */
export function datedChain(chain: DatedChain): Scene {
  const last =
    chain.bars
      .flatMap((b) => [b.to, b.nineInTen ?? b.to])
      .concat(chain.needed ?? [])
      .toSorted()
      .at(-1) ?? chain.today
  const fromD = dayNumberD([chain.today, ...chain.bars.map((b) => b.from)].toSorted()[0]!)
  const plannedD = dayNumberD(
    chain.bars
      .map((b) => b.to)
      .concat(chain.needed ?? [])
      .toSorted()
      .at(-1) ?? chain.today,
  )
  // A tail that runs into the next season would press all bars together: it ends at the edge, with its day beside it.
  const toD = Math.min(dayNumberD(last), fromD + Math.ceil((plannedD - fromD) * 1.18)) + 1
  const right = chain.widthMm - RIGHT_MM
  const x = (dayD: number): number => LEFT_MM + (Math.min(dayD, toD) - fromD) * ((right - LEFT_MM) / (toD - fromD))
  const bottom = HEAD_MM + chain.bars.length * chain.rowMm
  const y = (row: number): number => HEAD_MM + row * chain.rowMm + chain.rowMm / 2
  const items: Item[] = [...groundItems(chain, { x, fromD, toD, bottom })]
  const neededMm = chain.needed === null ? null : x(dayNumberD(chain.needed) + 1)
  items.push(...axisItems({ x, fromD, toD, bottom }, neededMm))
  for (const [i, bar] of chain.bars.entries()) items.push(...barItems(bar, { x, y: y(i), toD, right }))
  for (const [i, bar] of chain.bars.entries())
    if (bar.critical)
      for (const p of bar.after) {
        const before = chain.bars[p]
        if (before?.critical !== true) continue
        const [a, b] = [x(dayNumberD(before.to) + 1), x(dayNumberD(bar.from))]
        items.push(
          line(
            [
              [a, y(p)],
              [Math.max(a, b), y(p)],
              [Math.max(a, b), y(i) - BAR_MM / 2],
            ],
            'opening',
          ),
        )
      }
  if (chain.needed !== null && neededMm !== null) {
    const at = neededMm
    items.push(
      line(
        [
          [at, HEAD_MM - 3],
          [at, bottom],
        ],
        'cut',
      ),
    )
    items.push(
      text([at, HEAD_MM - 4], `needed ${shown(chain.needed)}`, {
        anchor: at > right - 14 ? 'end' : 'middle',
        strong: true,
        halo: true,
      }),
    )
  }
  items.push(text([LEFT_MM, HEAD_MM - 4], `from ${shown(chain.today)}`, { halo: true }))
  const driving = chain.bars.filter((b) => b.critical)
  const end = driving.at(-1)
  return {
    sizeMm: [chain.widthMm, bottom + FOOT_MM],
    said: `The dated chain, ${chain.bars.length} tasks from ${chain.today}; ${driving.length} of them drive the end${end === undefined ? '' : `, ${end.to}`}${chain.needed === null ? '' : `; needed ${chain.needed}`}.`,
    items,
  }
}

const shown = (iso: string): string => `${Number(iso.slice(8))}${THIN}${MONTHS[Number(iso.slice(5, 7)) - 1]} ${iso.slice(0, 4)}`

interface Axis {
  readonly x: (dayD: number) => number
  readonly fromD: number
  readonly toD: number
  readonly bottom: number
}

function groundItems(chain: DatedChain, { x, fromD, toD, bottom }: Axis): readonly Item[] {
  const items: Item[] = []
  const named = new Set<string>()
  for (const c of merged(chain.closed)) {
    const [a, b] = [Math.max(dayNumberD(c.from), fromD), Math.min(dayNumberD(c.to) + 1, toD)]
    if (b <= a) continue
    const corners: Point[] = [
      ...([
        [x(a), HEAD_MM],
        [x(b), HEAD_MM],
        [x(b), bottom],
        [x(a), bottom],
      ] as Point[]),
    ]
    items.push(area(corners, GROUND[c.what as keyof typeof GROUND] ?? 'at 0'))
    items.push(
      line(
        [
          [x(a), HEAD_MM],
          [x(a), bottom],
        ],
        'behind',
      ),
    )
    if (named.has(c.what)) continue
    named.add(c.what)
    items.push(text([x(a) + 0.6, bottom + 2.6 + 2.6 * ((named.size - 1) % 2)], `${c.what} shut`, { halo: true, heightMm: 2.3 }))
  }
  return items
}

/** Times of one kind that meet are one ground. */
function merged(all: DatedChain['closed']): DatedChain['closed'] {
  const out: { what: string; from: string; to: string }[] = []
  for (const c of all.toSorted((p, q) => (p.from < q.from ? -1 : p.from > q.from ? 1 : 0))) {
    const before = out.findLast((o) => o.what === c.what)
    if (before !== undefined && dayNumberD(c.from) <= dayNumberD(before.to) + 1) before.to = [before.to, c.to].toSorted()[1]!
    else out.push({ what: c.what, from: c.from, to: c.to })
  }
  return out
}

/** How far the name of a month runs. */
const MONTH_MM = 6

function axisItems({ x, fromD, toD, bottom }: Axis, neededMm: number | null): readonly Item[] {
  const items: Item[] = [
    line(
      [
        [x(fromD), HEAD_MM],
        [x(toD), HEAD_MM],
      ],
      'opening',
    ),
  ]
  for (let d = fromD; d <= toD; d += 1) {
    const iso = isoDay(d)
    if (iso.endsWith('-01')) {
      items.push(
        line(
          [
            [x(d), HEAD_MM - 1.8],
            [x(d), bottom],
          ],
          'hair',
        ),
      )
      // The line of the day needed would strike through its name.
      if (neededMm === null || neededMm < x(d) - 1 || neededMm > x(d) + MONTH_MM)
        items.push(text([x(d) + 0.5, HEAD_MM - 0.5], MONTHS[Number(iso.slice(5, 7)) - 1]!, { heightMm: 2.3 }))
    } else if (weekdayOf(d) === 0 && toD - fromD < 260)
      items.push(
        line(
          [
            [x(d), HEAD_MM - 0.7],
            [x(d), HEAD_MM],
          ],
          'hair',
        ),
      )
  }
  return items
}

function barItems(
  bar: ChainBar,
  at: { readonly x: (d: number) => number; readonly y: number; readonly toD: number; readonly right: number },
): readonly Item[] {
  const { x, y } = at
  const [a, b] = [x(dayNumberD(bar.from)), x(dayNumberD(bar.to) + 1)]
  const width = Math.max(b - a, 0.7)
  const items: Item[] = [text([LEFT_MM - 1.5, y + 0.9], bar.name, { anchor: 'end', strong: bar.critical })]
  items.push(box([a, y - BAR_MM / 2], width, BAR_MM, bar.interim ? 'chalk' : 'symbol', 'blank'))
  if (bar.critical) {
    // The slots of a channel: 5 long, 4 apart at full size, here at two fifths.
    for (let s = a + 0.9; s + 1.6 < a + width; s += 2.9) items.push(box([s, y - 0.42], 1.6, 0.84, 'rib', 'solid'))
    if (width < 3.4) items.push(box([a + width * 0.25, y - 0.42], width * 0.5, 0.84, 'rib', 'solid'))
  }
  const chance = bar.nineInTen === null ? null : dayNumberD(bar.nineInTen) + 1
  if (chance !== null && chance > dayNumberD(bar.to) + 1) {
    items.push(
      line(
        [
          [a + width, y + 0.75],
          [x(chance), y + 0.75],
        ],
        'chalk',
      ),
    )
    if (chance > at.toD)
      items.push(text([at.right + 0.4, y + 0.9], `→${THIN}${MONTHS[Number(bar.nineInTen!.slice(5, 7)) - 1]}`, { heightMm: 2.2 }))
    else items.push(circle([x(chance), y + 0.75], 0.3, 'rib', 'solid'))
  }
  const spare = bar.latest === null ? 0 : dayNumberD(bar.latest) - dayNumberD(bar.to)
  if (spare >= 1) {
    const end = x(dayNumberD(bar.latest!) + 1)
    for (const t of [a + width, end])
      items.push(
        line(
          [
            [t - 0.5, y + 0.05],
            [t + 0.5, y - 0.95],
          ],
          'dimension',
        ),
      )
    items.push(
      line(
        [
          [a + width, y - 0.45],
          [end, y - 0.45],
        ],
        'dimension',
      ),
    )
    if (end - a - width > 6)
      items.push(text([(a + width + end) / 2, y - 0.75], String(spare), { anchor: 'middle', heightMm: 2, halo: true }))
  }
  if (bar.latestFrom !== null && bar.latestFrom > bar.from) {
    const stop = x(dayNumberD(bar.latestFrom))
    items.push(
      line(
        [
          [stop, y - BAR_MM / 2],
          [stop, y + BAR_MM / 2],
        ],
        'opening',
      ),
    )
  }
  return items
}

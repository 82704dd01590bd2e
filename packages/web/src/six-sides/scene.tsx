import type { Item } from '@plugstead/drawings'
import { MARK_PATHS } from '@plugstead/drawings/marks'
import { memo } from 'react'
import type { GlassView } from '../worker/protocol.ts'

/** A drawing as SVG: what belongs to a thing stands in a group of its name, so that it can be dyed. Lines take their look from the style sheet, by what they mean. */
export const Scene = memo(function Scene({
  view,
  dyed,
  proposed = NOTHING,
}: {
  readonly view: Pick<GlassView, 'items' | 'pxPerMm'>
  readonly dyed: ReadonlySet<string>
  /** Things that a mend which is being tried would change. */
  readonly proposed?: ReadonlySet<string>
}) {
  const { pxPerMm } = view
  return (
    <g transform={`scale(${pxPerMm})`} className="scene">
      {stretches(view.items).map(({ of, items, key }) =>
        of === undefined ? (
          <g key={key}>{items.map(drawn)}</g>
        ) : (
          <g key={key} data-thing={of} className={classes(dyed.has(of) && 'dyed', proposed.has(of) && 'proposed')}>
            {items.map(drawn)}
          </g>
        ),
      )}
    </g>
  )
})

const NOTHING: ReadonlySet<string> = new Set()

const classes = (...names: readonly (string | false)[]): string | undefined => names.filter(Boolean).join(' ') || undefined

interface Stretch {
  readonly key: string
  readonly of: string | undefined
  readonly items: readonly Item[]
}

/** Neighbours that belong together, in the order of the drawing: what was drawn later stays on top. */
function stretches(items: readonly Item[]): readonly Stretch[] {
  const out: { key: string; of: string | undefined; items: Item[] }[] = []
  for (const item of items) {
    const of = 'of' in item ? item.of : undefined
    const last = out.at(-1)
    if (last !== undefined && last.of === of) last.items.push(item)
    else out.push({ key: String(out.length), of, items: [item] })
  }
  return out
}

function drawn(item: Item, i: number) {
  switch (item.kind) {
    case 'line':
      return (
        <path
          key={i}
          d={[item.pointsMm, ...(item.moreMm ?? [])].map((points) => pathOf(points, item.closed)).join('')}
          className={classOf(item.line, item.hatch)}
        />
      )
    case 'circle':
      return (
        <circle
          key={i}
          cx={r(item.atMm[0])}
          cy={r(item.atMm[1])}
          r={r(item.radiusMm)}
          className={classOf(item.line, item.hatch)}
        />
      )
    case 'arc': {
      const at = (deg: number): string => {
        const rad = (deg * Math.PI) / 180
        return `${r(item.atMm[0] + item.radiusMm * Math.cos(rad))} ${r(item.atMm[1] + item.radiusMm * Math.sin(rad))}`
      }
      const sweep = (((item.toDeg - item.fromDeg) % 360) + 360) % 360
      const radius = r(item.radiusMm)
      return (
        <path
          key={i}
          d={`M${at(item.fromDeg)}A${radius} ${radius} 0 ${sweep > 180 ? 1 : 0} 1 ${at(item.toDeg)}`}
          className={classOf(item.line)}
        />
      )
    }
    case 'text':
      return (
        <text
          key={i}
          x={r(item.atMm[0])}
          y={r(item.atMm[1])}
          textAnchor={item.anchor}
          className={`${item.strong ? 'strong' : ''}${item.halo ? ' halo' : ''}`}
          transform={item.turnDeg === 0 ? undefined : `rotate(${r(item.turnDeg)} ${r(item.atMm[0])} ${r(item.atMm[1])})`}
          style={{ fontSize: item.heightMm }}
        >
          {item.text}
        </text>
      )
    case 'mark': {
      const [x, y] = item.atMm
      const half = item.sizeMm / 2
      return (
        <g key={i} className="mark-at" transform={`translate(${r(x - half)} ${r(y - half)}) scale(${r(item.sizeMm / 16)})`}>
          <path className="mark-ground" d="M-2-2H18V18H-2z" />
          {MARK_PATHS[item.mark].map(({ d, filled, strokeWidth }) =>
            filled ? (
              <path key={d} d={d} className="filled" />
            ) : (
              <path key={d} d={d} className="lined" strokeWidth={strokeWidth} />
            ),
          )}
        </g>
      )
    }
  }
}

const pathOf = (points: readonly (readonly [number, number])[], closed: boolean): string =>
  `${points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${r(x)} ${r(y)}`).join('')}${closed ? 'z' : ''}`

const classOf = (line: string, hatch?: string): string =>
  `l-${line.replaceAll(' ', '-')}${hatch === undefined ? '' : ` h-${hatch.replaceAll(' ', '-')}`}`

/** A hundredth of a millimetre of lettering is a twentieth of a pixel. */
const r = (value: number): number => Math.round(value * 1000) / 1000

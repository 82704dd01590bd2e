import type { BoxBody } from '../../box/index.ts'
import type { FitDesign, Job, PlacedItem } from '../../job/index.ts'
import { put } from '../../kernel/index.ts'
import type { ShelfItem } from '../../parts/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { pinPath, readPlace } from '../layout/pins.ts'

/** Everything the electrical design asks for hangs somewhere; what found no room says against what, and how much is wanting. */
export function judgeAsked(box: string, fit: FitDesign, wanted: readonly ShelfItem[]): Judged {
  const clashed = new Set(fit.clashes.map((c) => c.what))
  const hung = new Set(fit.items.map((i) => i.id))
  const missing = wanted.filter((i) => !hung.has(i.id) && !clashed.has(i.id))
  const clashes = fit.clashes.map((c) =>
    judged({
      code: 'fit/clash',
      subject: `${box} ${c.what}`,
      verdict: 'fails',
      basis: 'physics',
      said: hung.has(c.what)
        ? `${c.what} and ${c.against} clash by ${shown(c.byMm)} mm.`
        : `${c.what} finds no place in ${box}: against ${c.against} ${shown(c.byMm)} mm are wanting.`,
      demand: put('wanting', c.byMm, 'mm'),
      limit: put('allowed', 0, 'mm'),
      provenance: 'computed',
    }),
  )
  const absent = missing.map((i) =>
    judged({
      code: 'fit/not-placed',
      subject: `${box} ${i.id}`,
      verdict: 'fails',
      basis: 'physics',
      said: `The electrical design asks for ${i.what}, and the layout of ${box} has no ${i.id}.`,
      provenance: 'computed',
    }),
  )
  if (clashes.length + absent.length > 0) return together([...clashes, ...absent])
  return judged({
    code: 'fit/not-placed',
    subject: box,
    verdict: 'holds',
    basis: 'physics',
    said: `All ${wanted.length} things that the electrical design asks for hang in or on ${box}.`,
    provenance: 'computed',
  })
}

/** Pins of places: each names a thing of this box, can be read, and is kept. */
export function judgePins(box: string, body: BoxBody, fit: FitDesign, pins: Job['pins']): Judged {
  return together(
    pins
      .filter((p) => p.path.startsWith(`items.${box}.`))
      .map((pin) => {
        const item = fit.items.find((i) => pinPath(box, i.id) === pin.path)
        const place = readPlace(pin.value)
        if (item === undefined || place === null)
          return judged({
            code: 'fit/pin-unread',
            subject: pin.path,
            verdict: 'unknown',
            basis: 'house',
            said:
              place === null
                ? `The place “${String(pin.value)}”, pinned by ${pin.by}, cannot be read. Write for example “left 1.20 m 1.55 m”: side, along it from its datum, height above the floor.`
                : `Nothing in ${box} answers to “${pin.path}”, pinned by ${pin.by}.`,
            provenance: 'told',
          })
        const off = offMm(body, item, place)
        return judged({
          code: 'fit/pin-kept',
          subject: `${box} ${item.id}`,
          verdict: off <= 1 ? 'holds' : 'fails',
          basis: 'house',
          said:
            off <= 1
              ? `${item.id} hangs where ${pin.by} pinned it.`
              : `${item.id} hangs ${shown(off)} mm from where ${pin.by} pinned it.`,
          demand: put('off', Number(shown(off)), 'mm'),
          limit: put('allowed', 1, 'mm'),
          provenance: 'told',
        })
      }),
  )
}

function offMm(body: BoxBody, item: PlacedItem, place: NonNullable<ReturnType<typeof readPlace>>): number {
  if (item.side !== place.side || item.face !== place.face) return Math.hypot(...body.outsideMm)
  const along = item.side === 'blind end' || item.side === 'door end' ? 1 : 0
  const flat = item.side === 'roof' || item.side === 'floor'
  const up = flat ? item.atMm[1] + item.sizeMm[1] / 2 : item.atMm[2] + item.sizeMm[2] / 2 - body.floor.topMm
  return Math.hypot(item.atMm[along] + item.sizeMm[along] / 2 - place.alongMm, up - place.upMm)
}

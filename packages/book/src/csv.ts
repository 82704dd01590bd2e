import type { Assessment } from '@plugstead/engine/assess'
import type { ChangeList } from '@plugstead/engine/plan'

type Cell = string | number | null

/** Way by way, odd and even in the panel's own order. */
export function panelCsv(assessment: Assessment): string {
  return csv(
    ['box', 'phase', 'way', 'side', 'leg', 'circuit', 'serves', 'device A', 'poles', 'power W', 'apparent VA', 'current A'],
    assessment.results.circuits.boxes.flatMap((b) =>
      b.panel.ways.map((w) => [
        b.box,
        b.phase,
        w.way,
        w.side,
        w.leg,
        w.circuit,
        w.label,
        w.deviceA,
        w.poles,
        w.powerW,
        w.apparentVA,
        w.currentA,
      ]),
    ),
  )
}

export function circuitsCsv(assessment: Assessment): string {
  return csv(
    [
      'box',
      'phase',
      'circuit',
      'ways',
      'legs',
      'serves',
      'outlet',
      'outlets',
      'power W',
      'apparent VA',
      'current A',
      'device A',
      'poles',
      'family',
      'interrupting kA',
      'shock',
      'sensitivity mA',
      'line',
      'neutral',
      'protective',
      'insulation',
      'metal',
      'length m',
      'sets',
      'ampacity A',
      'ambient C',
      'raceway',
      'verdict',
    ],
    assessment.results.circuits.boxes.flatMap((b) =>
      b.circuits.map((c) => [
        b.box,
        b.phase,
        c.id,
        c.ways.join(' '),
        c.legs.join(''),
        c.label,
        c.outlet,
        c.outletCount,
        c.powerW,
        c.apparentVA,
        c.currentA,
        c.deviceA,
        c.devicePoles,
        c.deviceFamily,
        c.interruptingKA,
        c.shock.kind,
        c.shock.sensitivityMA,
        c.line,
        c.neutral,
        c.protective,
        c.insulation,
        c.metal,
        c.lengthM,
        c.sets,
        c.ampacityA,
        c.ambientC,
        c.raceway,
        c.verdict,
      ]),
    ),
  )
}

export function cordsCsv(assessment: Assessment): string {
  return csv(
    [
      'box',
      'phase',
      'plug',
      'circuit',
      'what',
      'type',
      'size',
      'length m',
      'current A',
      'ampacity A',
      'jacket to C',
      'wanted C',
      'verdict',
    ],
    assessment.results.circuits.boxes.flatMap((b) =>
      b.cords.map((c) => [
        b.box,
        b.phase,
        c.plug,
        c.circuit,
        c.what,
        c.type,
        c.size,
        c.lengthM,
        c.currentA,
        c.ampacityA,
        c.jacketMinC,
        c.wantedMinC,
        c.verdict,
      ]),
    ),
  )
}

/** What must be changed on boxes that stand. An empty price: nothing is bought, or `price` says that it is not known. */
export function changesCsv(lists: readonly ChangeList[]): string {
  return csv(
    [
      'box',
      'action',
      'component',
      'tag',
      'quantity',
      'per',
      'as built',
      'needed',
      'why',
      'findings',
      'must',
      'fails without it',
      'material',
      'currency',
      'price',
    ],
    lists.flatMap((list) =>
      list.lines.map((line) => [
        list.box,
        line.action,
        line.component,
        line.tag,
        line.quantity,
        line.per,
        line.asBuilt,
        line.needed,
        line.why,
        line.codes.join(' '),
        line.must ? 'yes' : 'no',
        line.without.join(' '),
        line.material?.totalMoney ?? null,
        list.currency,
        line.priceUnknown || (line.material?.missing.length ?? 0) > 0 ? 'price not known' : '',
      ]),
    ),
  )
}

/** RFC 4180: comma, CRLF, quotes doubled. Numbers as they are, with no unit and no grouping. */
export function csv(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [head, ...rows].map((row) => `${row.map(cell).join(',')}\r\n`).join('')
}

/** Beyond these stands only what binary arithmetic leaves behind. */
const MOST_DIGITS = 12

/** A cell that a spreadsheet would take for a formula becomes text: an apostrophe goes before it. */
function cell(value: Cell): string {
  if (value === null) return ''
  if (typeof value === 'number') return Number.isFinite(value) ? String(Number(value.toPrecision(MOST_DIGITS))) : ''
  const words = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value
  return /[",\r\n]/.test(words) ? `"${words.replaceAll('"', '""')}"` : words
}

import type { Leg } from '../../job/index.ts'
import { Fault, source } from '../../kernel/index.ts'
import type { Outlet, RuleSet, Size, System } from '../rule-set.ts'
import { type Book, listAt, numberAt, rests, tableOf, wordAt } from './book.ts'
import { sizeName } from './size.ts'

/** Supply systems of the set, in the table's order. */
export function systemsOf(book: Book): readonly System[] {
  const id = `${book.set}-systems`
  const table = tableOf(book, id)
  return table.rows.map((row, at) => {
    const key = String(row[0])
    const say = (column: string) => wordAt(book, id, key, column).value
    const num = (column: string) => numberAt(book, id, key, column).value
    return {
      id: key,
      title: say('title'),
      kind: say('kind') as System['kind'],
      lineLineV: num('line_line'),
      lineNeutralV: num('line_neutral'),
      legs: say('legs').split(' ') as Leg[],
      neutral: num('neutral') === 1,
      bandLowFrac: num('low') / 100,
      bandHighFrac: num('high') / 100,
      source: rests(book, table, at, bandColumn(table.overlaid, at)),
    }
  })
}

/** The band is what overlays change; where one changed only the upper end, that is the cell to cite. */
function bandColumn(overlaid: readonly { readonly row: number; readonly column: string }[] | undefined, at: number): string {
  return overlaid?.some((o) => o.row === at && o.column === 'high') && !overlaid.some((o) => o.row === at && o.column === 'low')
    ? 'high'
    : 'low'
}

/** Outlets of the set, in the table's order. */
export function outletsOf(book: Book): readonly Outlet[] {
  const table = tableOf(book, 'outlets')
  return table.rows.flatMap((row, at) => {
    const [id, sets, ratingA, phases, connection, voltageV] = row
    if (!String(sets).split(' ').includes(book.set)) return []
    return [
      {
        id: String(id),
        ratingA: ratingA as number,
        phases: phases as 1 | 3,
        connection: connection as Outlet['connection'],
        voltageV: voltageV as number,
        rests: rests(book, table, at, 'rating'),
      },
    ]
  })
}

/** An outlet by its id or by another name people write for it; `hard-wired` is made from the machine that hangs on it. */
export function outletNamed(
  book: Book,
  outlets: readonly Outlet[],
  id: string,
  machine?: Omit<Outlet, 'id' | 'rests'>,
): Outlet | null {
  if (id !== 'hard-wired') {
    const row = tableOf(book, 'outlets').rows.find(
      (r) => r[0] === id || (typeof r[6] === 'string' && r[6].split('|').includes(id)),
    )
    return outlets.find((o) => o.id === row?.[0]) ?? null
  }
  return machine === undefined
    ? null
    : { ...machine, id, rests: source('fixed connection, rated by its circuit', 'common practice') }
}

/** Colours of conductors. */
export function coloursOf(book: Book): RuleSet['colours'] {
  const colour = (conductor: string) => wordAt(book, 'conductor-colours', book.set, conductor).value
  return { A: colour('A'), B: colour('B'), C: colour('C'), N: colour('N'), PE: colour('PE') }
}

/** What the trade takes when nobody says. */
export function defaultsOf(book: Book): RuleSet['defaults'] {
  const say = (what: string) => wordAt(book, 'trade-defaults', { set: book.set, what }, 'value').value
  return {
    insulation: say('insulation'),
    deviceFamily: say('deviceFamily'),
    raceway: say('raceway'),
    cordType: say('cordType'),
    panelBusA: listAt(book, 'trade-defaults', { set: book.set, what: 'panelBusA' }, 'value').value,
  }
}

/** Sizes of a table that stand in all the others too, rising: each of them can be chosen, laid, and worked out. */
export function sizesOf(book: Book, id: string, area: string, others: readonly string[]): readonly Size[] {
  const inAll = (key: string): boolean => others.every((other) => tableOf(book, other).rows.some((row) => String(row[0]) === key))
  return tableOf(book, id).rows.flatMap((row) => {
    const cell = row[0]
    if (cell === null || cell === undefined || typeof cell === 'object') throw new Fault('rules/size', cell)
    if (!inAll(String(cell))) return []
    return [{ name: sizeName(cell), areaMm2: numberAt(book, id, cell, area).value }]
  })
}

/** Highest volts to earth on the lines of a connection. A connection of two lines of a high-leg delta is taken between the other two legs. */
export function toEarthV(system: System, connection: Outlet['connection']): number {
  if (system.kind === 'delta' && (connection === 'LLL' || connection === 'LLLN')) return system.lineNeutralV * Math.sqrt(3)
  return system.lineNeutralV
}

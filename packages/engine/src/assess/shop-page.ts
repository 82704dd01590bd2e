import { LineCounter, parseDocument } from 'yaml'
import { type Problem, parseQuantity, type Result } from '../kernel/index.ts'
import { type MoneyPolicy, readMoneyPolicy } from '../money/index.ts'
import type { StockPaths } from '../parts/index.ts'
import { crewOf, TRADES, type Wrong } from './shop-crew.ts'
import type { Shop } from './types.ts'

/** The shop's own page: its name, where its tables lie, and what it knows of itself. Paths are relative to the page. */
export interface ShopPage {
  readonly name: string
  readonly prices: readonly string[]
  readonly overlays: readonly string[]
  readonly factors: NonNullable<Shop['factors']>
  readonly crew: NonNullable<Shop['crew']>
  readonly stock: StockPaths
  readonly money: MoneyPolicy
}

/** The shop's page, `shop.yaml`. Every problem at once. */
export function readShopPage(text: string): Result<ShopPage> {
  const lines = new LineCounter()
  const document = parseDocument(text, { lineCounter: lines, logLevel: 'silent' })
  const problems: Problem[] = document.errors.map((error) => ({
    ...{ code: 'shop-page/not-yaml', line: lines.linePos(error.pos[0]).line, found: error.message.split('\n')[0] ?? '' },
    ...{ wanted: 'YAML', mend: 'Mend that line.' },
  }))
  if (problems.length > 0) return { ok: false, problems }
  const page: unknown = document.toJS()
  const raw = typeof page === 'object' && page !== null ? (page as Record<string, unknown>) : {}
  const wrong = (path: string, found: unknown, wanted: string, mend: string) =>
    problems.push({
      code: 'shop-page/shape',
      path,
      found: found === undefined ? 'nothing' : JSON.stringify(found),
      wanted,
      mend,
    })
  if (typeof raw.name !== 'string') wrong('name', raw.name, 'the shop’s name', 'Write name: and the name.')
  const paths = (key: string): readonly string[] => {
    const value = raw[key] ?? []
    if (Array.isArray(value) && value.every((one) => typeof one === 'string')) return value
    wrong(key, value, 'a list of files', `Write ${key}: and a file a line, each after a dash.`)
    return []
  }
  const [prices, overlays] = [paths('prices'), paths('overlays')]
  if (prices.length === 0 && problems.length === 0)
    wrong(
      'prices',
      raw.prices,
      'at least one price table',
      'Name one: a plan seeks the least cost, and without prices there is none.',
    )
  const factors = factorsOf(raw, wrong)
  const crew = crewOf(raw, wrong)
  const stock = { modules: paths('modules'), models: paths('models'), yard: paths('yard'), hire: paths('hire') }
  const money = readMoneyPolicy(raw.money, wrong)
  if (problems.length > 0) return { ok: false, problems }
  return { ok: true, value: { name: String(raw.name), prices, overlays, factors, crew, stock, money } }
}

/** Saw, hours and rack, where the shop has written them. */
function factorsOf(raw: Record<string, unknown>, wrong: Wrong): ShopPage['factors'] {
  const map = (key: string): Record<string, unknown> => {
    const value = raw[key]
    if (value === undefined) return {}
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Record<string, unknown>
    wrong(key, value, 'named values', `Write ${key}: and one value a line.`)
    return {}
  }
  const mm = (path: string, value: unknown): number | null => {
    if (value === undefined) return null
    const read = parseQuantity(String(value), 'length')
    if (read.ok && read.value.value >= 0 && read.value.value < 20) return Math.round(read.value.value * 1e5) / 100
    wrong(path, value, 'a length from 0 to 20 m', 'Write for example 3 mm.')
    return null
  }
  const saw = map('saw')
  const [kerfMm, trimMm] = [mm('saw.kerf', saw.kerf), mm('saw.trim', saw.trim)]
  const hours: Partial<Record<(typeof TRADES)[number], number>> = {}
  for (const [trade, value] of Object.entries(map('hours'))) {
    const known = TRADES.find((t) => t === trade)
    if (known === undefined || typeof value !== 'number' || !(value > 0 && value <= 10))
      wrong(
        `hours.${trade}`,
        value,
        `a factor above 0, at most 10, for ${TRADES.join(', ')}`,
        'Write for example electrician: 0.9.',
      )
    else hours[known] = value
  }
  const rack = raw.rack ?? []
  if (!Array.isArray(rack))
    wrong('rack', rack, 'a list of offcuts', 'Write rack: and an offcut a line: {section: …, length: 1.2 m, count: 2}.')
  const rows = (Array.isArray(rack) ? rack : []).flatMap((row, i) => {
    const at = typeof row === 'object' && row !== null ? (row as Record<string, unknown>) : {}
    const lengthMm = mm(`rack[${i}].length`, at.length ?? '')
    const count = at.count ?? 1
    if (typeof at.section !== 'string' || lengthMm === null || !Number.isInteger(count) || Number(count) < 1) {
      wrong(
        `rack[${i}]`,
        row,
        'section, length and count',
        'Write for example {section: 12 ga 41 x 41, length: 1.2 m, count: 2}.',
      )
      return []
    }
    return [{ section: at.section, lengthMm, count: Number(count) }]
  })
  return {
    ...(kerfMm === null ? {} : { kerfMm }),
    ...(trimMm === null ? {} : { trimMm }),
    ...(Object.keys(hours).length === 0 ? {} : { hours }),
    ...(rows.length === 0 ? {} : { rack: rows }),
  }
}

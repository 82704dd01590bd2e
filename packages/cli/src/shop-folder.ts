import { basename, extname, join } from 'node:path'
import type { Shop } from '@plugstead/engine/assess'
import type { Problem, Result } from '@plugstead/engine/kernel'
import { readPrices } from '@plugstead/engine/parts'
import { builtInOverlays, readOverlay } from '@plugstead/engine/rules'
import { LineCounter, parseDocument } from 'yaml'
import { Unreadable } from './problem.ts'
import { fileText } from './read-file.ts'

/** The invented shop that comes with the program. */
const INVENTED = join(import.meta.dirname, '../../../shop')

interface ShopPage {
  readonly name: string
  readonly prices: readonly string[]
  readonly overlays: readonly string[]
}

/**
 * What belongs to the shop and not to one job: its price tables, a later one winning, and its overlays beside those that come with the
 * program.
 * @throws Unreadable with every problem of every file
 */
export function shopFolder(folder: string = INVENTED): Shop {
  const problems: Problem[] = []
  const page = pageOf(join(folder, 'shop.yaml'))
  const read = <T>(path: string, reader: (text: string, file: string) => Result<T>): readonly T[] => {
    try {
      const result = reader(fileText(path), path)
      if (result.ok) return [result.value]
      problems.push(...result.problems.map((problem) => ({ ...problem, file: path })))
    } catch (thrown) {
      if (!(thrown instanceof Unreadable)) throw thrown
      problems.push(...thrown.problems)
    }
    return []
  }
  const prices = page.prices.flatMap((path) => read(join(folder, path), readPrices))
  const overlays = page.overlays.flatMap((path) =>
    read(join(folder, path), readOverlay).map((overlay) => [nameOf(path), overlay] as const),
  )
  const currencies = new Set(prices.map((table) => table.currency))
  if (currencies.size > 1)
    problems.push({
      ...{ code: 'shop/currencies', file: join(folder, 'shop.yaml'), path: 'prices', found: [...currencies].join(' and ') },
      ...{
        wanted: 'tables of one currency',
        mend: 'Turn the rows of one table into the other’s currency, or leave that table out.',
      },
    })
  const [first] = prices
  if (problems.length > 0 || first === undefined) throw new Unreadable(...problems)
  return {
    name: page.name,
    prices: { currency: first.currency, rows: Object.assign({}, ...prices.map((table) => table.rows)) },
    overlays: { ...builtInOverlays, ...Object.fromEntries(overlays) },
  }
}

/** The shop's own page: its name, and where its tables lie. */
function pageOf(file: string): ShopPage {
  const lines = new LineCounter()
  const document = parseDocument(fileText(file), { lineCounter: lines, logLevel: 'silent' })
  const problems: Problem[] = document.errors.map((error) => ({
    ...{ code: 'shop/not-yaml', file, line: lines.linePos(error.pos[0]).line, found: error.message.split('\n')[0] ?? '' },
    ...{ wanted: 'YAML', mend: 'Mend that line.' },
  }))
  if (problems.length > 0) throw new Unreadable(...problems)
  const page: unknown = document.toJS()
  const raw = typeof page === 'object' && page !== null ? (page as Record<string, unknown>) : {}
  const wrong = (path: string, found: unknown, wanted: string, mend: string) =>
    problems.push({
      code: 'shop/shape',
      file,
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
  if (problems.length > 0) throw new Unreadable(...problems)
  return { name: String(raw.name), prices, overlays }
}

const nameOf = (path: string): string => basename(path, extname(path))

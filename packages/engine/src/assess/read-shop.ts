import type { Problem, Result } from '../kernel/index.ts'
import { NO_STOCK, readPrices, readStock } from '../parts/index.ts'
import { builtInOverlays, readOverlay } from '../rules/index.ts'
import { readShopPage } from './shop-page.ts'
import type { Shop } from './types.ts'

/** Gives the text of a file of the shop's folder by its path in it: `shop.yaml`, `prices/2026.yaml`. */
type ShopText = (path: string) => Result<string>

/** The page that every shop's folder has. */
const SHOP_PAGE = 'shop.yaml'

/**
 * What belongs to the shop and not to one job: its price tables, a later one winning, and its overlays beside those that come with the
 * program. Every problem of every file; each names its file by its path in the folder.
 */
export function readShop(textOf: ShopText): Result<Shop> {
  const problems: Problem[] = []
  const read = <T>(path: string, reader: (text: string) => Result<T>): readonly T[] => {
    const text = textOf(path)
    const result = text.ok ? reader(text.value) : text
    if (result.ok) return [result.value]
    problems.push(...result.problems.map((problem) => ({ ...problem, file: path })))
    return []
  }
  const [page] = read(SHOP_PAGE, readShopPage)
  if (page === undefined) return { ok: false, problems }
  const prices = page.prices.flatMap((path) => read(path, readPrices))
  const overlays = page.overlays.flatMap((path) => read(path, readOverlay).map((overlay) => [nameOf(path), overlay] as const))
  const stock = readStock(page.stock, textOf)
  if (!stock.ok) problems.push(...stock.problems)
  const currencies = new Set(prices.map((table) => table.currency))
  if (currencies.size > 1)
    problems.push({
      ...{ code: 'shop-page/currencies', file: SHOP_PAGE, path: 'prices', found: [...currencies].join(' and ') },
      ...{
        wanted: 'tables of one currency',
        mend: 'Turn the rows of one table into the other’s currency, or leave that table out.',
      },
    })
  const [first] = prices
  if (problems.length > 0 || first === undefined) return { ok: false, problems }
  return {
    ok: true,
    value: {
      name: page.name,
      prices: { currency: first.currency, rows: Object.assign({}, ...prices.map((table) => table.rows)) },
      overlays: { ...builtInOverlays, ...Object.fromEntries(overlays) },
      factors: page.factors,
      crew: page.crew,
      stock: stock.ok ? stock.value : NO_STOCK,
      money: page.money,
    },
  }
}

/** `overlays/larch-county.yaml` is `larch-county`. */
const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1).replace(/\.[^.]*$/, '')

import { join } from 'node:path'
import { outputName } from '@plugstead/engine/answer'
import { agedRows } from '@plugstead/engine/money'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { dayOption } from '../day-option.ts'
import { writtenText } from '../lists.ts'
import { count } from '../print/assessment.ts'
import { wrapped } from '../print/wrap.ts'
import { Unreadable } from '../problem.ts'
import { fileBytes } from '../read-file.ts'
import { shopFolder } from '../shop-folder.ts'
import { writeFiles } from '../write-files.ts'

/** A list of prices as the shop's price table. */
export async function run(given: Given): Promise<Outcome> {
  const [file = ''] = given.operands
  const { currency } = given.options
  if (typeof currency === 'string' && !/^[A-Z]{3}$/.test(currency))
    throw new Unreadable({
      ...{ code: 'command-line/currency', found: `--currency ${currency}`, wanted: 'three capital letters (ISO 4217)' },
      mend: 'Write for example --currency USD.',
    })
  const day = dayOption(given)
  const { readPriceList, priceTable } = await import('@plugstead/lists')
  const read = await readPriceList(fileBytes(file), typeof currency === 'string' ? { currency } : {})
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  const { prices, notRead } = read.value
  const shop = shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined)
  const rows = Object.values(prices.rows)
  const oldAfterDays = shop.money?.oldAfterDays ?? 0
  const old = day === null ? [] : agedRows(rows, { day, oldAfterDays })
  const table = priceTable(prices, `From the list ${outputName(file, '').replace(/\.$/, '')}.`)
  const folder = given.options.out
  const files =
    typeof folder === 'string'
      ? [{ path: join(folder, outputName(file.replace(/\.(csv|xlsx)$/i, ''), 'prices.yaml')), data: table }]
      : []
  await writeFiles(files)
  const changed = rows.filter((r) => shop.prices.rows[r.id] !== undefined && shop.prices.rows[r.id]!.money !== r.money).length
  const fresh = rows.filter((r) => shop.prices.rows[r.id] === undefined).length
  const notes = [
    `${count(rows.length, 'price')} in ${prices.currency}: ${fresh} the shop has not, ${changed} other than the shop’s.`,
    ...(notRead.length === 0 ? [] : [`Columns not read: ${notRead.join(', ')}.`]),
    ...(old.length === 0
      ? []
      : [
          `Older than ${oldAfterDays} days on ${day}: ${old
            .map((r) => `${r.id} (${r.date})`)
            .slice(0, 10)
            .join(', ')}${old.length > 10 ? ` and ${old.length - 10} more` : ''}.`,
        ]),
  ]
  const said = notes.map((line) => wrapped(line)).join('\n')
  return {
    code: 0,
    text:
      files.length === 0
        ? `${table}\n# ${notes.join('\n# ')}\n`
        : `${[said, ...writtenText(files.map((f) => f.path))].join('\n\n')}\n`,
    result: { prices, notRead, old, files: files.map(({ path }) => path) },
  }
}

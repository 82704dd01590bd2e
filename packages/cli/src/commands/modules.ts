import { type Module, readModule } from '@plugstead/engine/parts'
import type { Outcome } from '../answer.ts'
import type { Given } from '../command-line.ts'
import { EXIT } from '../exit-code.ts'
import { nearest } from '../near.ts'
import { modulesText, movedText } from '../print/models.ts'
import { Unreadable } from '../problem.ts'
import { withProgress } from '../progress.ts'
import { fileText } from '../read-file.ts'
import { shopFolder } from '../shop-folder.ts'

/** The shop's modules and who uses them; with a sheet: every model that uses it judged with it, and what moved. */
export async function run(given: Given): Promise<Outcome> {
  const shop = shopFolder(typeof given.options.shop === 'string' ? given.options.shop : undefined)
  const stock = shop.stock
  const { modelsMoved, movedOn } = await import('@plugstead/engine/rank')
  const [file] = given.operands
  if (file === undefined) {
    const models = stock?.models ?? []
    const rows = (stock?.modules ?? []).map((module) => ({
      ...module,
      usedBy: models.filter((m) => m.uses.some((u) => u.module.id === module.id)).map((m) => m.id),
    }))
    const moved = models.flatMap((model) => movedOn(model).map((one) => ({ model: model.id, ...one })))
    return { code: EXIT.holds, text: `${modulesText(rows, moved)}\n`, result: { modules: rows, movedOn: moved } }
  }
  const module = sheet(file, stock?.modules ?? [])
  const models = await withProgress('judging models again …', () => modelsMoved(module, shop))
  const fails = models.some((m) => m.after.failsMild.length > 0)
  return { code: fails ? EXIT.fails : EXIT.holds, text: `${movedText(module, models)}\n`, result: { module, models } }
}

function sheet(file: string, known: readonly Module[]): Module {
  const read = readModule(fileText(file))
  if (!read.ok) throw new Unreadable(...read.problems.map((problem) => ({ ...problem, file })))
  const ids = known.map((m) => m.id)
  if (ids.includes(read.value.id)) return read.value
  const near = nearest(read.value.id, ids)
  throw new Unreadable({
    ...{
      code: 'stock/module-unknown',
      file,
      path: 'id',
      found: `“${read.value.id}”`,
      wanted: 'the name of a module that the shop has',
    },
    mend:
      near === null ? `Use one of ${ids.join(', ') || 'none'}, or add the sheet to shop.yaml first.` : `Did you mean ${near}?`,
  })
}

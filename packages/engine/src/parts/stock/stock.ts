import type { Problem, Result } from '../../kernel/index.ts'
import { type Hire, NO_HIRE, readHire } from './hire.ts'
import { type Model, readModel } from './model.ts'
import { type Module, readModule } from './module.ts'
import { readYardBox, type YardBox } from './yard-box.ts'

/** Where the sheets lie, by their paths in the shop's folder. */
export interface StockPaths {
  readonly modules: readonly string[]
  readonly models: readonly string[]
  readonly yard: readonly string[]
  readonly hire: readonly string[]
}

/** What the shop builds again and again, and what stands in its yard. */
export interface Stock {
  readonly modules: readonly Module[]
  readonly models: readonly Model[]
  readonly yard: readonly YardBox[]
  readonly hire: Hire
}

export const NO_STOCK: Stock = { modules: [], models: [], yard: [], hire: NO_HIRE }

/** Every sheet of the shop's folder. Every problem of every file; each names its file. */
export function readStock(paths: StockPaths, textOf: (path: string) => Result<string>): Result<Stock> {
  const problems: Problem[] = []
  const read = <T>(files: readonly string[], reader: (text: string) => Result<T>): readonly T[] =>
    files.flatMap((file) => {
      const text = textOf(file)
      const result = text.ok ? reader(text.value) : text
      if (result.ok) return [result.value]
      problems.push(...result.problems.map((problem) => ({ ...problem, file })))
      return []
    })
  const modules = read(paths.modules, readModule)
  const models = read(paths.models, (text) => readModel(text, modules))
  const yard = read(paths.yard, readYardBox)
  const [hire = NO_HIRE] = read(paths.hire, readHire)
  for (const [key, all] of [
    ['modules', modules],
    ['models', models],
    ['yard', yard],
  ] as const) {
    const twice = all.map((one) => one.id).find((id, i, ids) => ids.indexOf(id) !== i)
    if (twice !== undefined)
      problems.push({
        ...{ code: 'stock/twice', file: 'shop.yaml', path: key, found: `“${twice}” twice`, wanted: 'one sheet for each name' },
        mend: 'Give one of them another id, or take it off the list.',
      })
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: { modules, models, yard, hire } }
}

import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { shopFolder } from '../packages/cli/src/shop-folder.ts'
import { readJob } from '../packages/engine/src/job/index.ts'
import { modelLimits, rankModels } from '../packages/engine/src/rank/index.ts'
import type { Bench } from './run.ts'

const root = dirname(import.meta.dirname)
const YARD = 'examples/shops/four-box-yard-us'
const yard = shopFolder(join(root, YARD))
const house = shopFolder()
if (yard.stock === undefined || house.stock === undefined) throw new Error('a shop without stock')
const both = { ...yard, stock: { ...yard.stock, models: house.stock.models, modules: house.stock.modules } }
const [model] = house.stock.models
if (model === undefined) throw new Error('no model')

/** Four boxes, four models and a new plan for each call; the film set wants the most circuits by far. */
export const benches: readonly Bench[] = [
  ...['CL1', 'CL2', 'CL3', 'CL4', 'CL5'].map((call): Bench => {
    const read = readJob(readFileSync(join(root, YARD, 'calls', `${call}.yaml`)))
    if (!read.ok) throw new Error(`${call} cannot be read`)
    return {
      name: `rank 4 boxes, 4 models, new: ${call}, ${read.value.plugs.length} plugs`,
      run: () => rankModels(read.value, both, { call }),
      limitS: 1.5,
      slow: true,
    }
  }),
  { name: `what ${model.id} is good for`, run: () => modelLimits(model, house), slow: true },
]

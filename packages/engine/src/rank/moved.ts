import type { Shop } from '../assess/index.ts'
import { type Model, type Module, modulesMoney, withModule } from '../parts/index.ts'
import { type ModelLimits, modelLimits } from './limits.ts'

/** One thing of a model that is not what it was. */
export interface Moved {
  readonly what: string
  readonly was: string
  readonly now: string
}

export interface ModelMoved {
  readonly model: string
  readonly revision: string
  readonly before: ModelLimits
  readonly after: ModelLimits
  readonly moved: readonly Moved[]
}

/** Every model that uses a module, judged with the module as the shop has it and with the sheet given, and what moved between the two. */
export function modelsMoved(module: Module, shop: Shop): readonly ModelMoved[] {
  const using = (shop.stock?.models ?? []).filter((m) => m.uses.some((u) => u.module.id === module.id))
  return using.map((model) => {
    const changed = withModule(model, module)
    const [before, after] = [modelLimits(model, shop), modelLimits(changed, shop)]
    return {
      model: model.id,
      revision: model.revision,
      before,
      after,
      moved: [...movedMoney(model, changed), ...movedBetween(before, after)],
    }
  })
}

function movedMoney(before: Model, after: Model): readonly Moved[] {
  const words = (model: Model) => {
    const sum = modulesMoney(model)
    return sum === null ? 'in two currencies' : `${sum.amount} ${sum.currency}`
  }
  return changed('money of its modules', words(before), words(after))
}

const changed = (what: string, was: string, now: string): readonly Moved[] => (was === now ? [] : [{ what, was, now }])

function movedBetween(a: ModelLimits, b: ModelLimits): readonly Moved[] {
  const limits = (of: ModelLimits) => new Map(of.limits.map((l) => [l.name, limitWords(l)]))
  const verdicts = (of: ModelLimits) =>
    new Map(
      [...of.lift.map((v) => ({ ...v, name: `set down by ${v.name}` })), ...of.papers].map((v) => [
        v.name,
        [v.verdict, ...v.codes].join(' '),
      ]),
    )
  const all = (was: ReadonlyMap<string, string>, now: ReadonlyMap<string, string>) =>
    [...new Set([...was.keys(), ...now.keys()])].flatMap((name) =>
      changed(name, was.get(name) ?? 'not asked', now.get(name) ?? 'not asked'),
    )
  return [
    ...changed('mass', `${a.massKg} kg`, `${b.massKg} kg`),
    ...all(limits(a), limits(b)),
    ...all(verdicts(a), verdicts(b)),
    ...changed('fails in a mild place', a.failsMild.join(', ') || 'nothing', b.failsMild.join(', ') || 'nothing'),
  ]
}

/** `38 C`, `100 % and more`, `does not hold`. */
export const limitWords = (l: ModelLimits['limits'][number]): string =>
  l.value === null ? 'does not hold' : `${l.value} ${l.unit}${l.toTheEnd ? ' and more' : ''}`

/** Modules that moved on since a model was drawn with them. */
export function movedOn(model: Model): readonly Moved[] {
  return model.uses.flatMap((u) => changed(u.module.id, `revision ${u.drawnWith}`, `revision ${u.module.revision}`))
}

import type { Circuit } from '../job/index.ts'
import { formatNumber, formatQuantity } from '../kernel/index.ts'
import { type Part, type Standing, shockTold, wireTold } from './change-list-box.ts'
import { type Asked, amps, codesOf, kA, poles, tags, type Written } from './change-list-line.ts'
import { keyMaterials } from './change-list-search.ts'

const PART_WORDS: Readonly<Record<Exclude<Part, 'cord'>, string>> = {
  device: 'device',
  wire: 'conductors and raceway',
  outlet: 'outlet',
  shock: 'shock protection',
}
const PARTS = Object.keys(PART_WORDS) as Exclude<Part, 'cord'>[]

/** Circuits as built that serve again, row by row: what of them is new, and what is kept. */
export function circuitLines(asked: Asked): readonly Written[] {
  const { of, keys } = asked
  return of.built.circuits.flatMap((row, at) => {
    const mine = of.whole.circuits.filter((c) => of.rowOf.get(c.id) === at)
    if (mine.length === 0) return []
    const told: Record<Exclude<Part, 'cord'>, string> = {
      ...{ device: `${amps(row.deviceA)}, ${poles(row.poles)}, ${kA(of.built.interruptingKA)}`, wire: row.conductor },
      ...{ outlet: row.outlet, shock: row.shock },
    }
    const renewed = PARTS.flatMap((part) => {
      const groups = new Map<string, Circuit[]>()
      for (const c of mine.filter((one) => keys.has(`${one.id}/${part}`))) {
        const needed = neededOf(c, part)
        groups.set(needed, [...(groups.get(needed) ?? []), c])
      }
      return [...groups].map(([needed, circuits]) => partLine(asked, circuits, part, told[part], needed))
    })
    const likes = mine.filter((c) => keys.has(`${c.id}/breaker`) && !keys.has(`${c.id}/device`))
    const like: readonly Written[] =
      likes.length === 0
        ? []
        : [
            {
              ...{ tag: tags(likes), component: 'device', action: 'replace', asBuilt: told.device, quantity: likes.length },
              needed: `${amps(row.deviceA)}, ${poles(row.poles)}, ${kA(likes[0]!.device.interruptingKA)}`,
              why: 'a device is listed for the panel it stands in, and has to break the highest fault there',
              codes: codesOf(asked, /^faults\/(built-interrupting|interrupting)$/, ['fails']),
              keys: likes.map((c) => `${c.id}/breaker`),
              buys: likes.flatMap((c) => keyMaterials(of, `${c.id}/breaker`, keys)),
            },
          ]
    return [...like, ...renewed, ...keptLines(of, keys, mine, told)]
  })
}

function partLine(
  asked: Asked,
  circuits: readonly Circuit[],
  part: Exclude<Part, 'cord'>,
  asBuilt: string,
  needed: string,
): Written {
  const { of, keys } = asked
  const names = new Set(circuits.flatMap((c) => [c.id, ...c.plugs]))
  const codes = asked.stands.filter((f) => f.verdict === 'fails' && names.has(f.subject)).map((f) => f.code)
  const none = part === 'shock' && shockTold(asBuilt)?.kind === 'none'
  const own = circuits.map((c) => `${c.id}/${part}`)
  return {
    ...{
      tag: tags(circuits),
      component: PART_WORDS[part],
      action: none ? 'add' : 'replace',
      asBuilt,
      needed,
      quantity: circuits.length,
    },
    why: part === 'wire' && wireTold(asBuilt) === null ? 'size and metal were not told so that they can be judged' : WHY[part],
    codes: [...new Set(codes)].toSorted(),
    // A device of another rating goes into the new panel: one thing, one line.
    keys: part === 'device' ? [...own, ...circuits.map((c) => `${c.id}/breaker`).filter((key) => keys.has(key))] : own,
    buys: own.flatMap((key) => keyMaterials(of, key, keys)),
  }
}

const WHY: Readonly<Record<Exclude<Part, 'cord'>, string>> = {
  device: 'what stays on it, or what it protects, asks another rating',
  wire: 'current, volts or fault ask another size',
  outlet: 'the device or the plug asks another outlet',
  shock: 'the rules ask it for this outlet',
}

function neededOf(c: Circuit, part: Exclude<Part, 'cord'>): string {
  if (part === 'device') return `${amps(c.device.ratingA)}, ${poles(c.device.poles)}, ${kA(c.device.interruptingKA)}`
  if (part === 'wire') return `${c.run.line.size} ${c.run.line.metal === 'cu' ? 'copper' : 'aluminium'} ${c.run.line.insulation}`
  if (part === 'outlet') return c.outlet
  return c.shock.kind === 'none'
    ? 'none'
    : `${c.shock.kind}${c.shock.form === null ? '' : ` ${c.shock.form}`}, ${c.shock.sensitivityMA} mA`
}

/** What of each circuit stays as it is; circuits that keep the same stand in one line. */
function keptLines(
  of: Standing,
  keys: ReadonlySet<string>,
  mine: readonly Circuit[],
  told: Readonly<Record<Exclude<Part, 'cord'>, string>>,
): readonly Written[] {
  const groups = new Map<string, Circuit[]>()
  for (const c of mine) {
    const kept = PARTS.filter(
      (part) => !keys.has(`${c.id}/${part}`) && !(part === 'device' && keys.has(`${c.id}/breaker`)),
    ).filter((part) => part !== 'shock' || (!keys.has('outlet devices') && shockTold(told.shock)?.kind !== 'none'))
    const key = kept.join()
    groups.set(key, [...(groups.get(key) ?? []), c])
  }
  return [...groups].flatMap(([key, circuits]): readonly Written[] => {
    if (key === '') return []
    const kept = key.split(',') as Exclude<Part, 'cord'>[]
    return [
      {
        ...{
          tag: tags(circuits),
          component: kept.map((p) => PART_WORDS[p]).join(', '),
          action: 'keep',
          quantity: circuits.length,
        },
        ...{
          asBuilt: kept.map((p) => told[p]).join('; '),
          needed: 'as built',
          per: kept.length > 1 ? ('set' as const) : ('each' as const),
        },
        why: circuits.some((c) => of.built.circuits[of.rowOf.get(c.id)!]!.outlet !== c.outlet)
          ? 'holds here as it was built; the smaller plug goes into this outlet'
          : 'holds here as it was built',
      },
    ]
  })
}

/** The machine asked another outlet: the plug of its cord changes with it. */
function replugged(of: Standing, c: Circuit): string {
  const other = c.plugs.filter((tag) => of.job.plugs.find((p) => p.tag === tag)?.outlet !== c.outlet)
  return other.length === 0 ? '' : `; the plug of ${other.join(', ')} becomes one for ${c.outlet}`
}

export function addedLines(asked: Asked): readonly Written[] {
  const { of, keys, stands } = asked
  return of.whole.circuits
    .filter((c) => keys.has(`${c.id}/add`))
    .map((c): Written => {
      const names = new Set([c.id, ...c.plugs])
      const near = of.built.circuits.find((r) =>
        c.plugs.some((tag) => of.job.plugs.find((p) => p.tag === tag)?.outlet === r.outlet),
      )
      const codes = stands.filter((f) => f.verdict === 'fails' && names.has(f.subject)).map((f) => f.code)
      const way = near === undefined ? [] : codesOf(asked, /\/built-way$/, ['fails'])
      return {
        ...{ tag: c.id, component: c.own === null ? 'circuit' : 'circuit of the box itself', action: 'add', per: 'set' },
        asBuilt: near === undefined ? 'none' : `${near.outlet} on ${amps(near.deviceA)}, ${near.conductor}: not enough`,
        needed: `${c.outlet} on ${amps(c.device.ratingA)}, ${poles(c.device.poles)}, ${neededOf(c, 'wire')}${c.shock.kind === 'none' ? '' : `, ${neededOf(c, 'shock')}`}`,
        why:
          c.own === null
            ? `nothing as built feeds ${c.plugs.join(', ')}${replugged(of, c)}`
            : 'none is told among the circuits as built; if it stands, it is kept',
        codes: [...new Set([...codes, ...way])].toSorted(),
        keys: [`${c.id}/add`],
        buys: keyMaterials(of, `${c.id}/add`, keys),
      }
    })
}

export function spareLines({ of, keys }: Asked): readonly Written[] {
  return [...of.spares].map(([row, count]): Written => {
    const c = of.built.circuits[row]!
    const out = keys.has(`spare/${row}`)
    return {
      ...{
        tag: `spare ${c.outlet}`,
        component: 'circuit that nothing needs',
        asBuilt: `${c.outlet} on ${amps(c.deviceA)}, ${c.conductor}`,
      },
      ...{
        quantity: count,
        action: out ? 'take out' : 'keep',
        needed: out ? 'dead, ends capped and labelled' : 'spare, labelled',
      },
      why: out ? 'its device does not go into the new panel, or its way is wanted' : 'its way is free; not judged for a machine',
      keys: out ? [`spare/${row}`] : [],
    }
  })
}

export function cordLines(asked: Asked): readonly Written[] {
  const { of, keys } = asked
  const coldC = of.job.site.designMinC
  const old = of.built.cords.flatMap((c, i): readonly Written[] => {
    const used = [...of.cordOf].filter(([plug, at]) => at === i && !keys.has(`${plug}/cord`)).map(([plug]) => plug)
    const mark = c.jacketMarkedC === null ? 'no mark told' : `marked ${formatNumber(c.jacketMarkedC)} °C`
    const base = {
      component: 'cord',
      asBuilt: `${c.size}, ${formatQuantity(c.lengthM, 'm')}, ${mark}`,
      codes: codesOf(asked, /\/built-cords$/, ['fails', 'unknown']),
    }
    if (keys.has(`old cord/${i}`))
      return [
        {
          ...{ ...base, tag: `cords ${c.size}`, action: 'take out', quantity: c.count, keys: [`old cord/${i}`] },
          ...{ needed: `a mark of ${formatNumber(coldC ?? 0)} °C or lower`, why: 'a jacket stiff with cold cracks' },
        },
      ]
    if (c.jacketMarkedC === null || coldC === null)
      return [
        {
          ...{
            ...base,
            tag: `cords ${c.size}`,
            action: 'test or measure',
            quantity: c.count,
            needed: 'the mark on the jacket read',
          },
          why:
            coldC === null
              ? 'nobody told how cold the place gets'
              : 'a cord without a known mark is not taken as fit for cold; one that is saves a new one',
        },
      ]
    return used.length === 0
      ? []
      : [
          {
            ...base,
            codes: [],
            tag: used.join(', '),
            action: 'keep',
            quantity: used.length,
            needed: 'as built',
            why: 'mark, length and size do',
          },
        ]
  })
  const groups = new Map<string, { plugs: string[]; keys: string[] }>()
  for (const c of of.whole.circuits)
    for (const cord of c.cords) {
      if (!keys.has(`${cord.plug}/cord`)) continue
      const needed = `${cord.size} ${cord.type}${cord.jacketMinC === null ? '' : `, to ${formatNumber(cord.jacketMinC)} °C`}`
      const group = groups.get(needed) ?? { plugs: [], keys: [] }
      group.plugs.push(cord.plug)
      group.keys.push(`${cord.plug}/cord`)
      groups.set(needed, group)
    }
  const fresh = [...groups].map(
    ([needed, { plugs, keys: own }]): Written => ({
      ...{
        tag: plugs.join(', '),
        component: 'cord',
        action: 'add',
        asBuilt: 'none that serves',
        needed,
        quantity: plugs.length,
        keys: own,
      },
      why: 'each machine is reached, in the cold of the place',
      buys: own.flatMap((key) => keyMaterials(of, key, keys)),
    }),
  )
  return [...old, ...fresh]
}

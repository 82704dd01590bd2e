import type { Circuit } from '../job/index.ts'
import { type Finding, formatNumber, formatQuantity } from '../kernel/index.ts'
import { type Material, materialsOf, type Prices, pricedMaterials } from '../parts/index.ts'
import { type Part, type Standing, shockTold, wireTold } from './change-list-box.ts'
import { boxMaterials, keptShock, keyMaterials } from './change-list-search.ts'
import type { ChangeLine } from './change-list-types.ts'

export type Line = Omit<ChangeLine, 'without' | 'must'>

interface Asked {
  readonly of: Standing
  readonly keys: ReadonlySet<string>
  readonly prices: Prices
  /** Findings on the box as it stands, in the new place. */
  readonly stands: readonly Finding[]
  /** Findings once everything is done. */
  readonly after: readonly Finding[]
}

type Written = Partial<Line> &
  Pick<Line, 'tag' | 'component' | 'asBuilt' | 'needed' | 'why' | 'action'> & { readonly buys?: readonly Material[] }

/** Every line of the list: panel first, then circuits, cords, what stayed at the old place, its state, and what nobody knows. */
export function linesOf(
  of: Standing,
  keys: ReadonlySet<string>,
  prices: Prices,
  stands: readonly Finding[],
  after: readonly Finding[],
): readonly Line[] {
  const asked = { of, keys, prices, stands, after }
  return [panelLines, circuitLines, addedLines, spareLines, cordLines, placeLines, stateLines, unknownLines]
    .flatMap((write) => write(asked))
    .map(({ buys, ...line }) => ({
      ...{ codes: [], quantity: 1, per: 'each' as const, priceUnknown: false, keys: [] },
      ...line,
      material: buys === undefined || buys.length === 0 ? null : pricedMaterials(merged(buys), prices),
    }))
}

/** The same thing for the same use once. */
function merged(needs: readonly Material[]): readonly Material[] {
  const sums = new Map<string, Material>()
  for (const need of needs) {
    const key = `${need.id}|${need.for}`
    sums.set(key, { ...need, quantity: (sums.get(key)?.quantity ?? 0) + need.quantity })
  }
  return [...sums.values()].map((m) => ({ ...m, quantity: Math.round(m.quantity * 10) / 10 }))
}

/** Codes of a kind that do not hold on the box as it stands. */
function codesOf({ stands }: Asked, code: RegExp, verdicts = ['fails', 'unknown', 'tight']): readonly string[] {
  return [...new Set(stands.filter((f) => code.test(f.code) && verdicts.includes(f.verdict)).map((f) => f.code))].toSorted()
}

const kA = (value: number): string => formatQuantity(value * 1000, 'A')
const amps = (value: number): string => formatQuantity(value, 'A')

function panelLines(asked: Asked): readonly Written[] {
  const { of, keys } = asked
  const { built, whole, job } = of
  const { panel } = whole
  const had = `${built.system}, ${amps(built.serviceA)}, ${built.ways} ways, ${kA(built.interruptingKA)}`
  const main = `${amps(built.serviceA)}, ${of.legs} poles, ${kA(built.interruptingKA)}`
  const faults = codesOf(asked, /^faults\/(built-interrupting|interrupting|bus-withstand)$/, ['fails'])
  const panelNew = keys.has('panel')
  const lines: Written[] = [
    panelNew
      ? {
          ...{
            tag: 'panel',
            component: 'panel',
            action: 'replace',
            asBuilt: had,
            keys: ['panel'],
            buys: keyMaterials(of, 'panel', keys),
          },
          needed: `${job.system}, ${amps(panel.busA)}, ${panel.ways} ways, ${kA(panel.interruptingKA)}`,
          why: 'volts, lines, ways and the highest fault of the new place',
          codes: [...codesOf(asked, /\/built-(phases|neutral|ways)$/, ['fails', 'unknown']), ...faults],
        }
      : {
          ...{ tag: 'panel', component: 'panel', action: 'keep', asBuilt: had, needed: 'as built' },
          why: 'lines, ways and interrupting rating are enough here',
        },
    keys.has('main')
      ? {
          ...{
            tag: 'main',
            component: 'main',
            action: 'replace',
            asBuilt: main,
            keys: ['main'],
            buys: keyMaterials(of, 'main', keys),
          },
          needed: `${amps(panel.main.ratingA)}, ${panel.main.poles} poles, ${kA(panel.main.interruptingKA)}`,
          why: panelNew
            ? 'a main is listed for its panel; poles and highest fault here'
            : 'rating, or highest fault, of the new place',
          codes: [...codesOf(asked, /^circuits\/(main-|protected|feed)/, ['fails']), ...faults],
        }
      : {
          ...{ tag: 'main', component: 'main', action: 'keep', asBuilt: main, needed: 'as built' },
          why: 'rating and interrupting rating are enough here',
        },
  ]
  const labels = boxMaterials(of, 'labels')
  return [
    ...lines,
    {
      ...{ tag: 'labels', component: 'labels and colours', action: 'relabel', buys: labels, per: 'set' },
      asBuilt: `for ${built.system}, rules ${built.rulesWhenBuilt}`,
      needed: `for ${job.system}, rules ${job.rules.set}`,
      why: 'volts, sources, ways and colours are told where a cover comes off; colours as built were not told',
    },
    {
      ...{
        tag: 'bond',
        component: 'bond of neutral and earth',
        action: 'test or measure',
        asBuilt: built.neutralBond,
        needed: panel.bond,
      },
      why: 'one bond and no second one; prove it before the supply is connected',
      priceUnknown: false,
    },
  ]
}

const PART_WORDS: Readonly<Record<Exclude<Part, 'cord'>, string>> = {
  device: 'device',
  wire: 'conductors and raceway',
  outlet: 'outlet',
  shock: 'shock protection',
}
const PARTS = Object.keys(PART_WORDS) as Exclude<Part, 'cord'>[]

/** Circuits as built that serve again, row by row: what of them is new, and what is kept. */
function circuitLines(asked: Asked): readonly Written[] {
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

function addedLines(asked: Asked): readonly Written[] {
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

function spareLines({ of, keys }: Asked): readonly Written[] {
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

function cordLines(asked: Asked): readonly Written[] {
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

/** What stays in the ground or on the wall of the old place, and what the box never had. */
function placeLines(asked: Asked): readonly Written[] {
  const { of } = asked
  const { whole, built } = of
  const line = (tag: string, component: string, needed: string, why: string, uses: readonly string[]): Written => ({
    ...{
      tag,
      component,
      action: 'add',
      asBuilt: 'none told',
      needed,
      why,
      per: 'set',
      buys: materialsOf(whole).filter((m) => uses.includes(m.for) && !m.id.startsWith('work/')),
    },
  })
  const feed = whole.fedFrom?.run ?? whole.panel.feed
  const t = whole.transformer
  return [
    line(
      'feed',
      'feed',
      `${feed.line.size}, ${formatQuantity(feed.lengthM, 'm')}`,
      'the service conductors stay at the old place',
      ['feed', 'feeder from the other box'],
    ),
    {
      ...line(
        'electrode',
        'electrode',
        whole.electrode.kind === 'rods'
          ? `${whole.electrode.count} rods of ${formatQuantity(whole.electrode.lengthM, 'm')}`
          : `ring of ${formatQuantity(whole.electrode.lengthM, 'm')}`,
        'the old one stays in the old ground',
        ['electrode'],
      ),
      asBuilt: built.electrodeOhm === null ? 'none told' : `${formatQuantity(built.electrodeOhm, 'Ohm')} at the old place`,
    },
    {
      ...{
        tag: 'electrode',
        component: 'electrode',
        action: 'test or measure',
        asBuilt: 'nothing measured here',
        needed: 'read after driving, and again in frost',
      },
      ...{ why: 'a reading at another place says nothing in this soil', codes: codesOf(asked, /^faults\/old-electrode$/) },
    },
    ...(t === null
      ? []
      : [
          line('transformer', 'own transformer', formatQuantity(t.kVA * 1000, 'VA'), 'this supply asks it', [
            'own transformer',
            'primary of the transformer',
          ]),
        ]),
    ...(whole.staging.control === 'none'
      ? []
      : [line('control', 'control of starts', whole.staging.control, 'this service asks it', ['staging'])]),
    ...(whole.transfer === 'none'
      ? []
      : [line('transfer', 'transfer', whole.transfer, 'two sources feed it here', ['transfer'])]),
  ]
}

function stateLines(asked: Asked): readonly Written[] {
  const { of, keys } = asked
  const { built, job } = of
  const cold = keys.has('outlet devices')
  const shock = keptShock(of, keys)
  return [
    ...(cold
      ? [
          {
            ...{
              tag: tags(shock),
              component: 'residual devices in the outlets',
              action: 'replace' as const,
              quantity: Math.max(1, shock.length),
            },
            asBuilt: `rated down to ${formatNumber(built.outletDeviceMinC ?? 0)} °C`,
            needed: `rated by the maker in writing to ${formatNumber(job.site.extremeMinC ?? job.site.designMinC ?? 0)} °C or lower, or in the panel where it is kept warm`,
            why: 'too cold, they may not trip',
            codes: codesOf(asked, /\/(built-outlet-cold|residual-cold)$/),
            ...{ keys: ['outlet devices'], buys: keyMaterials(of, 'outlet devices', keys), priceUnknown: shock.length === 0 },
          },
        ]
      : []),
    ...built.defects.map((said, i) => ({
      ...{
        tag: `defect ${i + 1}`,
        component: 'open defect',
        action: 'replace' as const,
        asBuilt: said.replace(/\.$/, ''),
        needed: 'mended and tested',
      },
      ...{
        why: 'not to be switched on as it stands',
        codes: codesOf(asked, /\/(built|open)-defects$/),
        keys: [`defect/${i}`],
        priceUnknown: true,
      },
    })),
    {
      ...{
        tag: 'full test',
        component: 'the whole box',
        action: 'test or measure',
        needed: 'a full test when all else is done, by a licensed person',
      },
      asBuilt: built.lastFullTestMonthsAgo === null ? 'never told' : `${formatNumber(built.lastFullTestMonthsAgo)} months ago`,
      ...{
        why: 'a full test after each move and each change',
        codes: codesOf(asked, /\/built-test$/),
        keys: ['full test'],
        priceUnknown: true,
      },
    },
  ]
}

/** What nobody has told or judged: to be looked at, never taken as OK. */
function unknownLines(asked: Asked): readonly Written[] {
  const { of, keys, after } = asked
  const unknown = (code: RegExp) => after.filter((f) => f.verdict === 'unknown' && code.test(f.code))
  const kept = [...of.rowOf.keys()].filter((id) => !keys.has(`${id}/wire`))
  const line = (
    tag: string,
    component: string,
    asBuilt: string,
    needed: string,
    why: string,
    codes: readonly string[] = [],
  ): Written => ({
    ...{ tag, component, action: 'test or measure', asBuilt, needed, why, codes, priceUnknown: true },
  })
  const outletCold = unknown(/\/built-outlet-cold$/)
  return [
    ...(kept.length === 0
      ? []
      : [
          line(
            kept.toSorted().join(', '),
            'kept conductors',
            'insulation, neutral, protective conductor, raceway: not told',
            'print read, sizes and insulation measured',
            'taken here as of the line’s size and the fresh design’s insulation; unknown until seen',
          ),
        ]),
    ...unknown(/\/built-neutral$/).map((f) =>
      line(
        'neutral',
        'neutral of the panel',
        'size not told',
        `${f.demand?.value ?? ''} A`,
        'on two lines of a wye the neutral carries as much as a line',
        [f.code],
      ),
    ),
    ...unknown(/\/built-approval$/).map((f) =>
      line(
        'approval',
        'approval',
        of.built.approval,
        `looked at under rules ${of.job.rules.set}`,
        'whose mark counts is the inspector’s to say',
        [f.code],
      ),
    ),
    ...(outletCold.length === 0
      ? []
      : [
          line(
            'outlet devices',
            'residual devices in the cold',
            'rating not told',
            'lowest temperature from the maker, in writing',
            'unknown until told',
            ['circuits/built-outlet-cold'],
          ),
        ]),
    line(
      'enclosure',
      'steel, paint, insulation, vents, heater, mass, plate',
      'as told in the job',
      'looked at for the new place',
      'the questions skin, air, haul and papers judge them',
    ),
  ]
}

const poles = (count: number): string => (count === 1 ? '1 pole' : `${count} poles`)
const tags = (circuits: readonly Circuit[]): string =>
  circuits
    .map((c) => c.id)
    .toSorted()
    .join(', ')

import type { BoxDesign, Circuit, Design, Job, Offer, Plug, Span } from '../../job/index.ts'
import type { Judged, TurningInput } from './types.ts'

/** Numbers that the verdict of a finding may turn on: of its plugs and circuit, of its box and supply, of the place. */
export function turningInputs(job: Job, design: Design, judged: Judged): readonly TurningInput[] {
  const { question, subject } = judged
  const circuits = design.boxes.flatMap((b) => b.circuits.map((circuit) => ({ box: b.box, circuit })))
  const own = circuits.filter(
    ({ box, circuit: c }) =>
      c.id === subject ||
      c.plugs.includes(subject) ||
      subject === `${box} ${c.id}` ||
      c.plugs.some((p) => subject === `${box} ${p}`),
  )
  const plugs = job.plugs.filter((p) => p.tag === subject || own.some(({ circuit }) => circuit.plugs.includes(p.tag)))
  const supplied = question === 'needs' || question === 'supply' || question === 'circuits'
  const wired = question === 'reach' || question === 'faults' || question === 'circuits'
  return [
    ...plugs.flatMap(plugInputs),
    ...(wired ? own.map(({ circuit }) => runInput(circuit)) : []),
    ...(wired || question === 'supply' ? design.boxes.map(feedInput) : []),
    ...(supplied && plugs.length === 0 ? [growthInput(job), allPowerInput] : []),
    ...(question === 'circuits' || question === 'faults' ? insideInputs(job) : []),
    ...(question === 'faults' || question === 'reach'
      ? job.offers.filter((o) => design.boxes.some((b) => b.offer === o.id)).flatMap(offerInputs)
      : []),
    ...(question === 'faults' ? soilInputs(job) : []),
    ...(question === 'haul' || question === 'skin' ? placeInputs(job) : []),
    ...(question === 'dates' || question === 'supply' ? leadInputs(job, design) : []),
  ]
}

type Set = TurningInput['set']

const withPlug =
  (tag: string, change: (plug: Plug, value: number) => Plug): Set =>
  (job, design, value) => ({ job: { ...job, plugs: job.plugs.map((p) => (p.tag === tag ? change(p, value) : p)) }, design })

function plugInputs({ tag, powerW, cordM, hoursPerDay }: Plug): readonly TurningInput[] {
  const cord: readonly TurningInput[] =
    cordM <= 0
      ? []
      : [
          {
            ...{ id: `${tag}/cord`, words: `cord of ${tag}`, unit: 'm', value: cordM, least: 0.5, most: cordM * 10 },
            set: (job, design, value) => ({
              job: withPlug(tag, (p, cord) => ({ ...p, cordM: cord }))(job, design, value).job,
              design: withCord(design, tag, value),
            }),
          },
        ]
  return [
    ...cord,
    {
      ...{ id: `${tag}/power`, words: `power of ${tag}`, unit: 'W', value: powerW, least: 1, most: powerW * 10 },
      // Its ampere go with it: volts and power factor stay.
      set: withPlug(tag, (p, watt) => ({ ...p, powerW: watt, currentA: p.currentA * (watt / p.powerW) })),
    },
    {
      ...{ id: `${tag}/hours`, words: `hours a day of ${tag}`, unit: 'h', value: hoursPerDay, least: 0.25, most: 24 },
      set: withPlug(tag, (p, hours) => ({ ...p, hoursPerDay: hours })),
    },
  ]
}

const withCord = (design: Design, tag: string, lengthM: number): Design => ({
  ...design,
  boxes: design.boxes.map((box) => ({
    ...box,
    circuits: box.circuits.map((c) => ({ ...c, cords: c.cords.map((k) => (k.plug === tag ? { ...k, lengthM } : k)) })),
  })),
})

function runInput({ id, run }: Circuit): TurningInput {
  return {
    ...{
      id: `${id}/run`,
      words: `wire of ${id}, panel to outlet`,
      unit: 'm',
      value: run.lengthM,
      least: 0.1,
      most: run.lengthM * 20,
    },
    set: (job, design, value) => ({
      job,
      design: {
        ...design,
        boxes: design.boxes.map((box) => ({
          ...box,
          circuits: box.circuits.map((c) => (c.id === id ? { ...c, run: { ...c.run, lengthM: value } } : c)),
        })),
      },
    }),
  }
}

function feedInput({ box, phase, panel }: BoxDesign): TurningInput {
  const { lengthM } = panel.feed
  return {
    ...{ id: `${box}/${phase}/feed`, words: `feed of box ${box}`, unit: 'm', value: lengthM, least: 0.1, most: lengthM * 20 },
    set: (job, design, value) => ({
      job,
      design: {
        ...design,
        boxes: design.boxes.map((b) =>
          b.box === box && b.phase === phase ? { ...b, panel: { ...b.panel, feed: { ...b.panel.feed, lengthM: value } } } : b,
        ),
      },
    }),
  }
}

const growthInput = (job: Job): TurningInput => ({
  ...{ id: 'needs/growth', words: 'growth', unit: '%', value: job.needs.growthFrac * 100, least: 0, most: 300 },
  set: (j, design, value) => ({ job: { ...j, needs: { ...j.needs, growthFrac: value / 100 } }, design }),
})

/** All machines together, as a share of what they take. */
const allPowerInput: TurningInput = {
  ...{ id: 'machines/power', words: 'power of every machine', unit: '%', value: 100, least: 1, most: 1000 },
  set: (job, design, value) => ({
    job: {
      ...job,
      plugs: job.plugs.map((p) => ({ ...p, powerW: (p.powerW * value) / 100, currentA: (p.currentA * value) / 100 })),
    },
    design,
  }),
}

const insideInputs = (job: Job): readonly TurningInput[] =>
  job.boxes.map((box) => ({
    ...{ id: `${box.id}/inside-hot`, words: `air inside ${box.id} at its hottest`, unit: '°C', value: box.insideHotC.high },
    ...{ least: Math.min(box.insideHotC.low, 20), most: 90 },
    set: (j, design, value) => ({
      job: { ...j, boxes: j.boxes.map((b) => (b.id === box.id ? { ...b, insideHotC: insideAt(b.insideHotC, value) } : b)) },
      design,
    }),
  }))

/** What was told or found is asked as if it were told otherwise; of what is bounded, the hot end is moved. */
function insideAt(span: Span, hotC: number): Span {
  return span.told
    ? { low: hotC, high: hotC, basis: 'tried', told: true }
    : { ...span, low: Math.min(span.low, hotC), high: hotC }
}

function offerInputs({ id, transformer, faultA, generator }: Offer): readonly TurningInput[] {
  const withOffer =
    (change: (offer: Offer, value: number) => Offer): Set =>
    (job, design, value) => ({ job: { ...job, offers: job.offers.map((o) => (o.id === id ? change(o, value) : o)) }, design })
  return [
    ...(transformer === undefined
      ? []
      : [
          {
            ...{
              id: `${id}/transformer`,
              words: `transformer of ${id}`,
              unit: 'kVA',
              value: transformer.kVA,
              least: 1,
              most: 5000,
            },
            set: withOffer((o, kVA) => (o.transformer === undefined ? o : { ...o, transformer: { ...o.transformer, kVA } })),
          },
        ]),
    ...(faultA === undefined
      ? []
      : [
          {
            ...{
              id: `${id}/fault-level`,
              words: `fault level of ${id}`,
              unit: 'A',
              value: faultA.value,
              least: 50,
              most: 200_000,
            },
            set: withOffer((o, value) => (o.faultA === undefined ? o : { ...o, faultA: { ...o.faultA, value } })),
          },
        ]),
    ...(generator === undefined
      ? []
      : [
          {
            ...{ id: `${id}/set`, words: `size of ${id}`, unit: 'kVA', value: generator.ratedKVA, least: 1, most: 5000 },
            set: withOffer((o, ratedKVA) =>
              o.generator === undefined
                ? o
                : {
                    ...o,
                    generator: { ...o.generator, ratedKVA, ratedKW: (o.generator.ratedKW * ratedKVA) / o.generator.ratedKVA },
                  },
            ),
          },
        ]),
  ]
}

/** Lead time of what feeds a box, where somebody told it. */
const leadInputs = (job: Job, design: Design): readonly TurningInput[] =>
  job.offers
    .filter((o) => o.leadDays !== null && design.boxes.some((b) => b.offer === o.id || b.interim === o.id))
    .map(({ id, leadDays }) => ({
      ...{ id: `${id}/lead`, words: `lead time of ${id}`, unit: 'days', value: leadDays ?? 0, least: 0, most: 2000 },
      set: (j, d, value) => ({
        job: { ...j, offers: j.offers.map((o) => (o.id === id ? { ...o, leadDays: Math.round(value) } : o)) },
        design: d,
      }),
    }))

function soilInputs(job: Job): readonly TurningInput[] {
  const upper = (key: 'soilOhmM' | 'frostDepthM', words: string, unit: string): TurningInput => ({
    ...{
      id: `site/${key}`,
      words,
      unit,
      value: job.site[key].high,
      least: job.site[key].low,
      most: Math.max(1, job.site[key].high * 20),
    },
    set: (j, design, value) => ({ job: { ...j, site: { ...j.site, [key]: { ...(j.site[key] as Span), high: value } } }, design }),
  })
  return [upper('soilOhmM', 'soil at its highest', 'Ω·m'), upper('frostDepthM', 'frost at its deepest', 'm')]
}

/** Of the place, what was said: nobody turns a number that nobody told. */
function placeInputs(job: Job): readonly TurningInput[] {
  const { snow, wind, ground, access } = job.yard
  const input = (
    id: string,
    words: string,
    unit: string,
    per: number,
    now: number | null,
    set: (yard: Job['yard'], value: number) => Job['yard'],
  ) =>
    now === null
      ? []
      : [
          {
            ...{ id: `site/${id}`, words, unit, value: now / per, least: 0, most: (now / per) * 20 },
            set: (j: Job, design: Design, value: number) => ({ job: { ...j, yard: set(j.yard, value * per) }, design }),
          },
        ]
  return [
    ...input('snow', 'snow on the ground', 'kPa', 1000, snow.groundLoadPa, (y, v) => ({
      ...y,
      snow: { ...y.snow, groundLoadPa: v },
    })),
    ...input('snow-depth', 'depth of snow', 'm', 1, snow.depthM, (y, v) => ({ ...y, snow: { ...y.snow, depthM: v } })),
    ...input('wind', 'wind', 'kPa', 1000, wind.pressurePa, (y, v) => ({ ...y, wind: { ...y.wind, pressurePa: v } })),
    ...input('bearing', 'what the ground bears', 'kPa', 1000, ground.bearingPa, (y, v) => ({
      ...y,
      ground: { ...y.ground, bearingPa: v },
    })),
    ...input('slope', 'slope of the pad', '%', 0.01, ground.slopeFrac, (y, v) => ({
      ...y,
      ground: { ...y.ground, slopeFrac: v },
    })),
    ...input('grade', 'grade of the road', '%', 0.01, access.roadGradeFrac, (y, v) => ({
      ...y,
      access: { ...y.access, roadGradeFrac: v },
    })),
    ...input('straight', 'straight run at the pad', 'm', 1, access.straightRunM, (y, v) => ({
      ...y,
      access: { ...y.access, straightRunM: v },
    })),
    ...input('width', 'width of the way', 'm', 1, access.widthM, (y, v) => ({ ...y, access: { ...y.access, widthM: v } })),
  ]
}

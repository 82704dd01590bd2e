import { parseQuantity, type Result } from '../kernel/index.ts'
import { CALL_DEFAULTS, type Call, type CallAnswers, type CalledMachine, readCall } from './call.ts'
import { systemById, USUAL_SYSTEM } from './systems.ts'

/** One value of the new document that nobody told. */
interface Taken {
  readonly path: string
  readonly why: string
}

/** Days that only whoever takes the call knows. */
export interface CallDays {
  /** Day of the call: lead times count from it. */
  readonly called?: string
  /** Day by which the shop promised to ring back. */
  readonly ringBack?: string
}

/**
 * A job document from the answers of a call, with comments in plain words. Every default stands in it and is listed under `assumed`, so
 * that it is shown wherever an answer rests on it. What has no default is left out and named in a comment. Reads back with `readJob`.
 */
export function newJob(answers: CallAnswers, days: CallDays = {}): Result<string> {
  const read = readCall(answers)
  return read.ok ? { ok: true, value: documentOf(read.value, answers, days) } : read
}

const quoted = (text: string): string =>
  /^[A-Za-z][A-Za-z0-9 .-]*$/.test(text) && !/^(yes|no|true|false|null|on|off|y|n)$/i.test(text)
    ? text.trim()
    : JSON.stringify(text)

function documentOf(call: Call, answers: CallAnswers, { called, ringBack }: CallDays): string {
  const taken: Taken[] = []
  const assume = (path: string, why: string): void => {
    taken.push({ path, why })
  }
  const was = (key: keyof typeof CALL_DEFAULTS): string => answers[key] ?? CALL_DEFAULTS[key]
  const mark = (key: keyof CallAnswers, path: string, why: string): string => {
    if (!call.defaulted.has(key)) return ''
    assume(path, why)
    return '   # assumed'
  }
  const system = call.system ?? USUAL_SYSTEM[call.set]
  if (call.system === null) assume('facts.supply.system', 'nobody said; usual for a small supply')
  const machines = call.machines.flatMap((m, i) => machineLines(m, i, call, assume))
  const forbidden = call.defaulted.has('forbidden')
    ? []
    : was('forbidden')
        .split(';')
        .map((f) => `    - ${quoted(f.trim())}`)
  const buy = was('buy')
  const lines = [
    '# A job, begun from a call. Lines marked “assumed” were said by nobody: put the true value in its place and',
    '# take its path out of the list “assumed” at the end. Lines that begin with “# ask” have no default.',
    'plugstead: 1',
    `title: ${quoted(`Job at ${call.where}`)}`,
    `rules: { set: ${call.set} }`,
    '',
    'needs:',
    `  stay: ${call.stay}${mark('stay', 'needs.stay', 'nobody said; one season')}`,
    `  growth: ${call.growthPct} %${mark('stay', 'needs.growth', 'nobody said; trade custom')}`,
    call.by === null
      ? '  # ask: by which day must it be live, and what is lost each day without?   needed-by: 2027-11-01'
      : `  needed-by: ${call.by}`,
    ...(called === undefined ? [] : [`  order-placed: ${called}   # day of the call`]),
    ...(ringBack === undefined ? [] : [`  ring-back: ${ringBack}`]),
    `  season: { days: ${call.winter ? 150 : 365} }${seasonMark(call, assume)}`,
    `  buy-or-rent: ${/rent/i.test(buy) && !/buy|both/i.test(buy) ? 'rent' : /buy/i.test(buy) && !/rent|both/i.test(buy) ? 'buy' : 'both'}${mark('buy', 'needs.buy-or-rent', 'nobody said; both are priced')}`,
    ...(call.defaulted.has('buy') ? [] : [`  wishes:`, `    - ${JSON.stringify(`On money: ${buy}`)}`]),
    ...(forbidden.length === 0
      ? ['  # ask: is anything forbidden: noise, colour, night work, fuel, hot work, digging?']
      : ['  forbidden:', ...forbidden]),
    '  machines:',
    '    # Ask for a photograph of each plate: whether a number is W or VA, for which voltage, and how many cords a machine has.',
    ...machines,
    '',
    'facts:',
    '  site:',
    `    place: ${quoted(call.where)}`,
    '    # ask: height above the sea, latitude and soil; the lowest and highest temperature go under “climate”.',
    `    ground: { surface: ${quoted(was('ground').split(',')[0]?.trim() || was('ground'))} }${mark('ground', 'facts.site.ground.surface', 'nobody said')}`,
    `    access: { overhead-line: ${quoted(lineOf(was('ground')))}, unload: ${quoted(unloadOf(was('ground')))} }${mark('ground', 'facts.site.access', 'nobody said')}`,
    `    stands-there: ${quoted(was('stands'))}${mark('stands', 'facts.site.stands-there', 'nobody said; anything found is treated as live')}`,
    '  supply:',
    `    system: ${systemById(system)?.title ?? system}${call.system === null ? '   # assumed' : ''}`,
    '    offers:',
    ...offerLines(call, assume),
    '',
    'boxes:',
    `  - { id: box, length: 20 ft, height: standard, moves: ${quoted(call.moves)}, spare-ways: 25 % }   # assumed`,
    '',
    'assumed:',
    ...[
      ...taken,
      { path: 'boxes[0].length', why: 'the usual box' },
      { path: 'boxes[0].spare-ways', why: 'trade custom, 20 to 25 %' },
    ].map((t) => `  - { path: ${quotedPath(t.path)}, why: ${JSON.stringify(t.why)} }`),
    '',
  ]
  return lines.join('\n')
}

const quotedPath = (path: string): string => (path.includes('[') ? JSON.stringify(path) : path)

function seasonMark(call: Call, assume: (path: string, why: string) => void): string {
  if (!call.winter && !call.defaulted.has('when')) return ''
  assume('needs.season.days', 'nobody counted the days; a winter is taken as 150')
  return '   # assumed'
}

const lineOf = (ground: string): string =>
  /no lines?\b/i.test(ground)
    ? 'none'
    : (/[^,]*\blines?\b[^,]*/i.exec(ground)?.[0].trim() ?? 'not said; a line that is found is taken as live')
const unloadOf = (ground: string): string => /tilt-bed|crane|forks?|skids?/i.exec(ground)?.[0] ?? 'tilt-bed'

/** Hours before ready in which a heater may be on: the night. */
const NIGHT_H = 12

function machineLines(
  m: CalledMachine,
  index: number,
  call: Call,
  assume: (path: string, why: string) => void,
): readonly string[] {
  const at = (key: string) => `needs.machines[${index}].${key}`
  const note = (key: string, why: string): string => {
    assume(at(key), why)
    return '   # assumed'
  }
  const outlet = outletFor(m, call)
  const days = Math.round((call.winter && m.kind === 'heater' ? 150 : 365) * (call.everyDay ? 1 : 6 / 7))
  const cords =
    m.count === 1
      ? `${tenth(call.farM)} m`
      : `[${Array.from({ length: m.count }, (_, i) => `${tenth((call.farM * (i + 1)) / m.count)} m`).join(', ')}]`
  const heat = m.kind === 'heater'
  const from = (Number(call.ready.slice(0, 2)) + 24 - NIGHT_H) % 24
  return [
    `    - tag: M${index + 1}`,
    `      what: ${quoted(m.what)}`,
    ...(m.count === 1 ? [] : [`      count: ${m.count}`]),
    `      kind: ${m.kind}${m.kindGuessed ? note('kind', 'the words did not say; a mixed load') : ''}`,
    ...(heat ? [`      use: vehicle-heater${note('use', 'a heater on a cord is taken as a vehicle’s')}`] : []),
    ...(m.power === null
      ? m.current === null
        ? ['      # ask: how many watts?   power: 1500 W']
        : []
      : m.shaft
        ? [`      motor: { shaft: ${m.power}, start: direct }`]
        : [`      power: ${m.power}`]),
    ...(m.voltage === null
      ? ['      # ask: for which voltage? A 240 V element on 208 V gives 75 % of its watts.   voltage: 120 V']
      : [`      voltage: ${m.voltage}`]),
    ...(m.current === null ? [] : [`      current: ${m.current}`]),
    ...(m.phases === 3 ? ['      phases: 3'] : []),
    `      outlet: ${outlet}${note('outlet', 'usual for its voltage and current')}`,
    ...(heat
      ? [
          `      window: ${String(from).padStart(2, '0')}:${call.ready.slice(3)} to ${call.ready}${note('window', 'the night before it must be ready')}`,
          `      hours: 3 h${note('hours', '2 h to -15 C, 3 h to -25 C, 4 h below')}`,
        ]
      : [`      window: all day${note('window', 'nobody said')}`, `      hours: 8 h${note('hours', 'nobody said; one shift')}`]),
    `      days: ${days}${note('days', 'season and days of the week')}`,
    `      cord: ${cords}${call.defaulted.has('far') ? note('cord', 'nobody said; 30 m to the farthest') : m.count === 1 ? '' : note('cord', 'spread evenly to the farthest')}`,
  ]
}

const tenth = (metres: number): string => String(Math.ceil(metres * 10 - 1e-9) / 10)

/** VA a small motor draws for each watt at its shaft, about: efficiency 0.6 to 0.7, power factor 0.6 to 0.7. Common practice. */
const SHAFT_RATIO = 2.5

function outletFor(m: CalledMachine, call: Call): string {
  const volts = m.voltage === null ? null : parseQuantity(m.voltage, 'voltage')
  const watts = m.power === null ? null : parseQuantity(m.power, 'power')
  const v = volts?.ok ? volts.value.value : null
  const told = m.current === null ? null : parseQuantity(m.current, 'current')
  const a = told?.ok
    ? told.value.value
    : v !== null && watts?.ok
      ? (watts.value.value * (/hp\b/i.test(m.power ?? '') ? SHAFT_RATIO : 1)) / (v * (m.phases === 3 ? Math.sqrt(3) : 1))
      : null
  if (v === null || a === null) return 'hard-wired'
  if (call.set === 'intl')
    return m.phases === 3
      ? a <= 16
        ? '16 A 5-pin'
        : a <= 32
          ? '32 A 5-pin'
          : a <= 63
            ? '63 A 5-pin'
            : 'hard-wired'
      : a <= 16
        ? '16 A 3-pin'
        : a <= 32
          ? '32 A 3-pin'
          : 'hard-wired'
  if (m.phases === 3) return 'hard-wired'
  if (v <= 130) return a <= 12 ? '5-15R' : a <= 16 ? '5-20R' : 'hard-wired'
  return a <= 16 ? '6-20R' : a <= 40 ? '6-50R' : 'hard-wired'
}

const SETS_KW = [20, 30, 45, 60, 80, 100, 150, 200, 300, 400] as const

/** What was named on the call; nothing named: a utility and a hired set, both to be asked for. */
function offerLines(call: Call, assume: (path: string, why: string) => void): readonly string[] {
  const services = call.set === 'intl' ? '[63 A, 100 A, 200 A]' : '[100 A, 200 A, 400 A]'
  const kW = SETS_KW.find((s) => s >= 1.25 * connectedKW(call)) ?? 400
  const wanted =
    call.supplies.length === 0
      ? ([
          { kind: 'utility', what: 'utility, not yet asked', distance: null },
          { kind: 'generator', what: 'hired set, not yet asked', distance: null },
        ] as const)
      : call.supplies
  return wanted.flatMap((offer, i) => {
    const path = `facts.supply.offers[${i}]`
    const distance = offer.distance ?? '30 m'
    if (offer.distance === null) assume(`${path}.distance`, 'nobody said')
    if (offer.kind === 'utility') assume(`${path}.service`, 'usual sizes; the utility has offered nothing yet')
    if (offer.kind === 'generator') assume(`${path}.generator`, 'next usual size over 1.25 times everything on')
    if (call.set === 'intl' && offer.kind !== 'generator') assume(`${path}.earthing`, 'nobody said; ask the network')
    return [
      `      - kind: ${offer.kind}`,
      `        what: ${quoted(offer.what)}`,
      `        distance: ${distance}${offer.distance === null ? '   # assumed' : ''}`,
      ...(offer.kind === 'utility'
        ? [
            `        service: ${services}   # assumed`,
            '        # ask: transformer (kVA and impedance), fault current in writing, lead time, cost.',
          ]
        : []),
      ...(offer.kind === 'generator' ? [`        generator: { rated-power: ${kW} kW }   # assumed`] : []),
      ...(offer.kind === 'neighbour'
        ? ['        # ask: how many amperes, in which phases, with whose meter?   spare: 60 A']
        : []),
      ...(call.set === 'intl' && offer.kind !== 'generator' ? ['        earthing: TN-S   # assumed'] : []),
    ]
  })
}

function connectedKW(call: Call): number {
  return call.machines.reduce((sum, m) => {
    const read = m.power === null ? null : parseQuantity(m.power, 'power')
    return sum + (read?.ok ? (m.count * read.value.value) / (m.shaft ? 0.78 : 1) / 1000 : 0)
  }, 0)
}

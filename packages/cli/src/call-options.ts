import type { Option } from './command-line.ts'

/** One question of the call, in the order it is asked. */
export interface CallQuestion {
  /** Name of its option, and of its answer. */
  readonly id: string
  readonly asks: string
  readonly value: string
  /** What is taken when nobody says; null: it has none and must be told. */
  readonly default: string | null
  /** How the default is said. */
  readonly example: string
}

/** The eleven questions of a call, each with its default. */
export const CALL: readonly CallQuestion[] = [
  { id: 'where', asks: 'Where is it: town, region, country?', value: 'TOWN', default: null, example: 'Northgate, AK, US' },
  {
    id: 'machines',
    asks: 'What do you plug in, and how many of each? (plate: watts, volts)',
    value: 'LIST',
    default: null,
    example: '6 groomer heater 1500 W 120 V; 1 compressor 3 hp 240 V',
  },
  {
    id: 'when',
    asks: 'When must they be ready, and on which days?',
    value: 'TIMES',
    default: '07:00, Mon-Sat, winter',
    example: '06:00, every day, winter',
  },
  {
    id: 'far',
    asks: 'How far is the farthest machine from where the box can stand?',
    value: 'LENGTH',
    default: '30 m',
    example: '100 ft',
  },
  {
    id: 'power',
    asks: 'Is there power near: pole, transformer, neighbour, generator? How far, what voltage?',
    value: 'TEXT',
    default: 'none known',
    example: 'pole 40 m, 120/240 V',
  },
  {
    id: 'stay',
    asks: 'How long do you need it; will it move; will it grow?',
    value: 'TEXT',
    default: 'one season, one move, +25 %',
    example: '18 months, no move, +50 %',
  },
  {
    id: 'ground',
    asks: 'What ground and what access?',
    value: 'TEXT',
    default: 'firm gravel, tilt-bed, no lines',
    example: 'frozen silt, crane, lines over the gate',
  },
  {
    id: 'forbidden',
    asks: 'Anything forbidden: noise, colour, night work, fuel, hot work, digging?',
    value: 'TEXT',
    default: 'nothing',
    example: 'noise from 22:00 to 07:00',
  },
  {
    id: 'by',
    asks: 'By what date must it be live, and what is lost each day without?',
    value: 'DATE',
    default: 'four weeks before the first cold',
    example: '2026-10-15',
  },
  {
    id: 'buy',
    asks: 'Buy or rent, and what money is there?',
    value: 'TEXT',
    default: 'both priced',
    example: 'rent, 4000 a month',
  },
  {
    id: 'stands',
    asks: 'What stands there now, working, damaged or dead, and who made it dead?',
    value: 'TEXT',
    default: 'nothing',
    example: 'a dead 100 A service, locked off by the utility',
  },
]

export const CALL_OPTIONS: Readonly<Record<string, Option>> = Object.fromEntries(
  CALL.map((question) => [
    question.id,
    {
      value: question.value,
      said: question.default === null ? `${question.asks} Has no default` : `${question.asks} Default: ${question.default}`,
      group: 'The eleven questions',
    },
  ]),
)

import type { Outcome } from './answer.ts'
import { CALL_OPTIONS } from './call-options.ts'
import type { Given, Operand, Option, Takes } from './command-line.ts'

interface Command {
  readonly summary: string
  /** A few lines of what it does, and what it does not. */
  readonly said: string
  readonly takes: Takes
  readonly examples: readonly { readonly line: string; readonly said: string }[]
  /** Loaded only when it is the one that runs: starting stays quick. */
  readonly load: () => Promise<{ readonly run: (given: Given) => Promise<Outcome> }>
}

const job: Operand = { name: 'JOB', said: 'the job document, a YAML or JSON file' }
const common: Readonly<Record<string, Option>> = {
  json: { said: 'print the answer as one JSON object' },
  help: { said: 'print this page' },
}
const shop: Readonly<Record<string, Option>> = {
  shop: { value: 'DIR', said: 'the shop’s folder: prices, overlays, models, yard. Default: the invented one' },
}
const years: Readonly<Record<string, Option>> = {
  years: { value: 'N', said: 'also say in how many of N made years the air holds, 1 to 30. Default: not asked' },
}
const out = (said: string): Readonly<Record<string, Option>> => ({ out: { value: 'DIR', said } })

export type CommandName =
  | 'new'
  | 'plan'
  | 'assess'
  | 'models'
  | 'modules'
  | 'working'
  | 'book'
  | 'draw'
  | 'dates'
  | 'network'
  | 'cut'
  | 'offer'
  | 'prices'
  | 'weather'
  | 'year'
  | 'remedies'
  | 'check'

export const commands: Readonly<Record<CommandName, Command>> = {
  new: {
    summary: 'write a job document from the eleven questions of a call',
    said: 'Asks what the phone call asks, each question with its default, or takes every answer as an option. With no terminal to ask on, the options must answer the two questions that have no default: --where and --machines. Without FILE the document is printed.',
    takes: {
      operands: [{ name: 'FILE', said: 'where to write the document', optional: true }],
      options: {
        ...CALL_OPTIONS,
        today: { value: 'YYYY-MM-DD', said: 'day of the call: lead times count from it. Default: not said' },
        defaults: { said: 'ask nothing: take the default of every question not answered' },
        write: { said: 'replace FILE when it is there already' },
        ...common,
      },
    },
    examples: [
      { line: 'plugstead new yard.yaml', said: 'asks, then writes yard.yaml' },
      {
        line: 'plugstead new yard.yaml --where "Northgate, AK, US" \\\n    --machines "6 groomer heater 1500 W 120 V" --defaults',
        said: 'asks nothing',
      },
    ],
    load: () => import('./commands/new.ts'),
  },
  plan: {
    summary: 'find the design for a job, and judge it',
    said: 'Fills every choice that nobody pinned, answers the questions for that design, and shows the runners-up and why they lost.',
    takes: {
      operands: [job],
      options: {
        ...out('also write design, findings and lists there'),
        write: { said: 'write what was chosen into JOB, as pins' },
        ...years,
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead plan yard.yaml', said: 'prints the design and what is wrong with it' },
      { line: 'plugstead plan yard.yaml --years 30', said: 'also says in how many of thirty made years it stays dry' },
      { line: 'plugstead plan yard.yaml --out out', said: 'also writes out/yard.design.json and lists' },
      { line: 'plugstead plan yard.yaml --write', said: 'keeps the choices in yard.yaml' },
    ],
    load: () => import('./commands/plan.ts'),
  },
  assess: {
    summary: 'answer every question for one design of a job',
    said: 'Judges a design: the one in --design, as plan --out wrote it and perhaps edited by hand; without it, the one that plan gives for this job and its pins. It never designs around what it finds.',
    takes: {
      operands: [job],
      options: {
        design: { value: 'FILE', said: 'the design to judge' },
        ...out('also write findings and lists there'),
        ...years,
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead assess yard.yaml', said: 'judges the plan of yard.yaml' },
      { line: 'plugstead assess yard.yaml --design out/yard.design.json', said: 'judges a design edited by hand' },
    ],
    load: () => import('./commands/assess.ts'),
  },
  models: {
    summary: 'rank what would do for a call: boxes in the yard, models, a new plan',
    said: 'Judges each box in the yard, the box of the job, each house model and a new plan for JOB: what speaks against it as it stands, what must be changed (parts, hours, money, days), the earliest day, the price, and why it is not better. Without JOB: what each house model is good for, found by judging it at its limits.',
    takes: {
      operands: [{ ...job, optional: true }],
      options: {
        places: { said: 'without JOB: also take each model through a year of every place that the program knows; some minutes' },
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead models yard.yaml', said: 'ranks, with the invented shop' },
      {
        line: 'plugstead models examples/shops/four-box-yard-us/calls/CL1.yaml \\\n    --shop examples/shops/four-box-yard-us',
        said: 'a yard of four boxes',
      },
      { line: 'plugstead models', said: 'what each model is good for' },
      { line: 'plugstead models --places', said: 'and in which places it stays dry and cool enough' },
    ],
    load: () => import('./commands/models.ts'),
  },
  modules: {
    summary: 'list the shop’s own modules, or judge what a new sheet of one moves',
    said: 'Lists the modules, who uses them, and models that were drawn with an older revision. With SHEET: every model that uses that module is judged at its limits with the module as it is and as the sheet has it, and what moved is printed. Nothing is written.',
    takes: { operands: [{ name: 'SHEET', said: 'a module’s sheet, changed', optional: true }], options: { ...shop, ...common } },
    examples: [
      { line: 'plugstead modules', said: 'the list' },
      { line: 'plugstead modules board-200-split.yaml', said: 'what that sheet would move' },
    ],
    load: () => import('./commands/modules.ts'),
  },
  working: {
    summary: 'show how one number was worked out',
    said: 'Prints the derivation line by line: symbol, expression, values, result, and what each line rests on. SUBJECT is a plug, circuit, panel, a working’s id (G4C/drop) or a finding’s code (reach/drop).',
    takes: {
      operands: [job, { name: 'SUBJECT', said: 'what the number is about' }],
      options: {
        design: { value: 'FILE', said: 'the design to work from' },
        ...out('also write the workings there'),
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead working yard.yaml G1', said: 'everything worked out for G1' },
      { line: 'plugstead working yard.yaml G1/drop', said: 'one derivation' },
    ],
    load: () => import('./commands/working.ts'),
  },
  book: {
    summary: 'print the job book and its lists',
    said: 'Plans and judges the job, then typesets the book (PDF) and writes panel, cord and circuit lists (CSV), the design and the findings.',
    takes: {
      operands: [job],
      options: {
        ...out('where to write; wanted'),
        paper: { value: 'letter|a4', said: 'paper size. Default: as the rule set’s country uses', oneOf: ['letter', 'a4'] },
        for: {
          value: 'READER',
          said: 'only the sheets of one reader: licensed, welder, electrician, rigger, customer. Default: the whole book',
          oneOf: ['licensed', 'welder', 'electrician', 'rigger', 'customer'],
        },
        'check-print': { said: 'with room for the ticks of the person who follows by hand' },
        remedies: {
          said: 'also what each measure against heat and damp buys, over the made years of --years, else thirty: some minutes',
        },
        ...years,
        design: { value: 'FILE', said: 'the design to print' },
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead book yard.yaml --out out', said: 'writes out/yard.book.pdf and the lists' },
      { line: 'plugstead book yard.yaml --out out --paper a4 --check-print', said: 'on A4, to be followed by hand' },
      { line: 'plugstead book yard.yaml --out out --remedies', said: 'with the table of measures against heat and damp' },
      { line: 'plugstead book yard.yaml --out out --for welder', said: 'writes out/yard.welder.pdf: the welder’s sheets' },
    ],
    load: () => import('./commands/book.ts'),
  },
  draw: {
    summary: 'draw the box: sheets, cut files and a solid',
    said: 'Plans the job, then draws every box that is laid out: each sheet as SVG at a scale that fits the paper, what is cut as DXF and SVG at true size (millimetres, one layer for each operation), and the whole as GLB (metres). A thing that does not fit is drawn where it clashes, and marked.',
    takes: {
      operands: [job],
      options: {
        ...out('where to write; wanted'),
        paper: {
          value: 'letter|a4|tabloid|a3',
          said: 'what a sheet must fit. Default: letter or a4, which share one block',
          oneOf: ['letter', 'a4', 'tabloid', 'a3'],
        },
        design: { value: 'FILE', said: 'the design to draw' },
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead draw yard.yaml --out out', said: 'writes out/yard.BOX.six-sides.svg and the others' },
      { line: 'plugstead draw yard.yaml --out out --paper a3 --json', said: 'larger sheets, and a list of the files' },
    ],
    load: () => import('./commands/draw.ts'),
  },
  dates: {
    summary: 'say by when it is live, and what must start today',
    said: 'Lays every task from the order to the switch on its calendar: utility, papers, goods, shop, road, ground. Says what drives the end, what must start today, the chance of being late and what one act brings. With --out it writes the chain as iCalendar and CSV.',
    takes: {
      operands: [job],
      options: {
        today: { value: 'YYYY-MM-DD', said: 'the day on which it is asked. Default: the day of the order' },
        design: { value: 'FILE', said: 'the design whose chain it is' },
        ...out('also write the chain there, as iCalendar and CSV'),
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead dates yard.yaml', said: 'the chain from the day of the order' },
      { line: 'plugstead dates yard.yaml --today 2027-08-02 --out out', said: 'as it stands that day; writes out/yard.ics' },
    ],
    load: () => import('./commands/dates.ts'),
  },
  network: {
    summary: 'solve a network of wires, transformers and loads',
    said: 'Gives the volts at every node of a network written in the documented shape (docs/network-format.md), three or four wires, radial or meshed.',
    takes: {
      operands: [{ name: 'FILE', said: 'the network, a YAML or JSON file' }],
      options: {
        case: { value: 'NAME', said: 'one of the file’s cases; default: all' },
        ...out('also write the volts there, as CSV'),
        ...common,
      },
    },
    examples: [
      { line: 'plugstead network packages/engine/data/network/ieee-4-node.yaml', said: 'all cases' },
      { line: 'plugstead network feeder.yaml --case "YY unbalanced" --json', said: 'one, for a program' },
    ],
    load: () => import('./commands/network.ts'),
  },
  cut: {
    summary: 'cut pieces from stock lengths, with the proof that none does better',
    said: 'Says how to saw strut, raceway, tube or angle from the stock there is: least money where stock has prices, then fewest bars, then few set-ups, then a long remnant. The file is JSON (docs/shop-cutting.md). Ends with 1 where it cannot be cut, with 3 where the best is not proven.',
    takes: {
      operands: [{ name: 'FILE', said: 'stock, kerf and pieces, a JSON file' }],
      options: {
        working: { said: 'also print how the bound was worked out' },
        ...out('also write the bars there, as CSV, with the marks'),
        ...common,
      },
    },
    examples: [
      { line: 'plugstead cut examples/cut/strut-rack.json', said: 'bars, bound and proof' },
      { line: 'plugstead cut examples/cut/strut-rack.json --working', said: 'and what the bound rests on' },
    ],
    load: () => import('./commands/cut.ts'),
  },
  offer: {
    summary: 'write the offer to the customer, and the money as a workbook',
    said: 'Plans and prices the job, then writes the offer (PDF, one page), the cost as a workbook whose formulas are live (XLSX) and as a list (CSV); with --rent also the schedule of rent. What it costs the shop stands in the workbook and not in the offer. Without --date the offer is undated and says that it binds nobody.',
    takes: {
      operands: [job],
      options: {
        ...out('where to write; wanted'),
        date: { value: 'YYYY-MM-DD', said: 'the day of the offer' },
        rent: { said: 'also the schedule of rent' },
        paper: { value: 'letter|a4', said: 'paper size. Default: as the rule set’s country uses', oneOf: ['letter', 'a4'] },
        design: { value: 'FILE', said: 'the design to price' },
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead offer yard.yaml --out out --date 2027-07-10', said: 'writes out/yard.offer.pdf and the workbook' },
      { line: 'plugstead offer yard.yaml --out out --date 2027-07-10 --rent', said: 'and the schedule of rent' },
    ],
    load: () => import('./commands/offer.ts'),
  },
  prices: {
    summary: 'turn a list of prices into the shop’s price table',
    said: 'Reads a list (CSV or XLSX) whose first row names the columns id, price, per, date, source and, where there are such, supplier, pack, waste, currency. Every problem is named with its row and cell; nothing is read from a list that has one. Without --out the table is printed.',
    takes: {
      operands: [{ name: 'FILE', said: 'the list, a CSV or XLSX file' }],
      options: {
        currency: { value: 'CODE', said: 'currency of rows that name none' },
        date: { value: 'YYYY-MM-DD', said: 'flag the prices that are old on that day' },
        ...out('write the table there, to be named under prices in shop.yaml'),
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead prices wire.xlsx --currency USD', said: 'prints the table' },
      { line: 'plugstead prices wire.csv --out shop/prices', said: 'writes shop/prices/wire.prices.yaml' },
    ],
    load: () => import('./commands/prices.ts'),
  },
  weather: {
    summary: 'read a weather file into hours, and say what it is worth',
    said: 'Reads typical years (EPW, TMY3, TMY2, PVGIS) and, with a mapping, any table of text with a row an hour or less; a file that ends in .gz is unpacked. Says what was filled, dropped or refused and why, what its own rows say against it, and its means beside the nearest climate the program knows. Forms, rules and limits: docs/weather-files.md.',
    takes: {
      operands: [{ name: 'FILE', said: 'the weather file, as it came or packed with gzip' }],
      options: {
        columns: { value: 'MAP.yaml', said: 'which column is what, for a table of text' },
        place: {
          value: 'LAT,LON,HEIGHT,UTC',
          said: 'degrees north and east, metres, hours ahead of UTC. Default: as the file says',
        },
        'fill-from-normals': { said: 'take what the file lacks from a year made of the nearest climate, and say so' },
        ...out('also write the hours there, as CSV'),
        ...common,
      },
    },
    examples: [
      { line: 'plugstead weather denver.epw.gz', said: 'what stands in it' },
      {
        line: 'plugstead weather montreal.csv \\\n    --columns examples/weather/montreal-qc_2012_hourly.columns.yaml --json',
        said: 'an observed year by its mapping',
      },
      { line: 'plugstead weather log.csv --columns log.yaml --place 46.8,-100.8,502,-6', said: 'a place of your own' },
    ],
    load: () => import('./commands/weather.ts'),
  },
  year: {
    summary: 'run a box through the hours of a year, and beside a logger',
    said: 'Takes one box of the job through the hours of a weather file, or of the made design year of its place, and says how hot, cold, wet and frosted it gets, what drips and what heater and fan use. With a logger’s list it says how far each sensor is from it, and what the list tells of leakage, roof and gear, with the uncertainty; where it tells nothing, it says so. Nothing is written into the job. How to log: docs/air-trial.md.',
    takes: {
      operands: [job],
      options: {
        weather: { value: 'FILE', said: 'the weather. Default: the made design year of the place' },
        columns: { value: 'MAP.yaml', said: 'which column of the weather is what, for a table of text' },
        place: {
          value: 'LAT,LON,HEIGHT,UTC',
          said: 'of the weather: degrees north and east, metres, hours ahead of UTC. Default: as the file says',
        },
        'fill-from-normals': { said: 'take what the weather lacks from the nearest climate, and say so' },
        year: { value: 'YYYY', said: 'which year of several. Default: the first; with a log, its own' },
        box: { value: 'ID', said: 'which box. Default: the first' },
        end: {
          value: 'middle|hot|damp|cold',
          said: 'at which end of what nobody knows. Default: middle',
          oneOf: ['middle', 'hot', 'damp', 'cold'],
        },
        measured: { value: 'LOG.csv', said: 'a logger’s list' },
        'log-columns': { value: 'MAP.yaml', said: 'which column of the log is what. Default: by its headings' },
        design: { value: 'FILE', said: 'the design to run' },
        ...out('also write every hour there, as CSV'),
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead year yard.yaml --out out', said: 'the made design year; writes out/yard.BOX.hours.csv' },
      { line: 'plugstead year yard.yaml --weather denver.epw.gz --end damp', said: 'a file, at the dampest end' },
      {
        line: 'plugstead year yard.yaml --weather station.csv \\\n    --columns station.yaml --measured log.csv',
        said: 'beside a logger',
      },
    ],
    load: () => import('./commands/year.ts'),
  },
  remedies: {
    summary: 'what each measure against heat and damp buys a box',
    said: 'Takes a plain box through made years, then with one measure at a time, then with one more on top of the other in the order of what they pay: hours, litres, energy and money. Says in how many of the years the design itself holds. A measure is not a permission: who installs it decides.',
    takes: {
      operands: [job],
      options: {
        years: { value: 'N', said: 'made years, 1 to 30. Default: 30' },
        box: { value: 'ID', said: 'which box. Default: the first' },
        design: { value: 'FILE', said: 'the design, as plan --out wrote it. Default: the one plan gives' },
        ...out('also write the table there, as CSV'),
        ...shop,
        ...common,
      },
    },
    examples: [
      { line: 'plugstead remedies yard.yaml', said: 'prints the table' },
      { line: 'plugstead remedies yard.yaml --years 5 --out out', said: 'five years; also writes out/yard.yard.remedies.csv' },
    ],
    load: () => import('./commands/remedies.ts'),
  },
  check: {
    summary: 'run the published cases against this program',
    said: 'Computes worked examples from handbooks and standards and test feeders with the program’s own functions, and lays ours beside theirs.',
    takes: { operands: [], options: { ...out('also write the table there, as CSV'), ...common } },
    examples: [
      { line: 'plugstead check', said: 'what agrees, and every value that does not' },
      { line: 'plugstead check --json', said: 'ours, theirs, tolerance and source of every value' },
    ],
    load: () => import('./commands/check.ts'),
  },
}

export const isCommand = (name: string): name is CommandName => Object.hasOwn(commands, name)

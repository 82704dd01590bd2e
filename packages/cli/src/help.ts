import type { Option } from './command-line.ts'
import { type CommandName, commands } from './commands.ts'
import { labelled, wrapped } from './print/wrap.ts'

export function programHelp(version: string): string {
  return `plugstead ${version}: electrical houses built from shipping containers

  plugstead COMMAND …

${Object.entries(commands)
  .map(([name, command]) => labelled(name, command.summary, 10, 2))
  .join('\n')}

Start with
  plugstead new yard.yaml              the call, as a job document
  plugstead plan yard.yaml             its design, and what is wrong with it
  plugstead book yard.yaml --out out   the book an electrician can check

plugstead COMMAND --help tells more, with examples. All take --json.

The code it ends with: 0 all that is built holds or is tight, 1 something fails
or is off, 2 the input cannot be read, 3 nothing fails but something is
unknown, 4 a mistake of the program or the machine.

A design aid: local codes and the authority having jurisdiction decide, and a
licensed person must check and do the work.
`
}

export function commandHelp(name: CommandName): string {
  const { said, takes, examples } = commands[name]
  const operands = takes.operands.map((operand) => (operand.optional ? `[${operand.name}]` : operand.name))
  const usage = ['plugstead', name, ...operands, ...(Object.keys(takes.options).length > 0 ? ['[options]'] : [])].join(' ')
  const groups = Map.groupBy(Object.entries(takes.options), ([, option]) => option.group ?? 'Options')
  return [
    usage,
    wrapped(said),
    ...(takes.operands.length === 0
      ? []
      : [takes.operands.map((operand) => labelled(operand.name, operand.said, 20, 2)).join('\n')]),
    ...[...groups].map(([group, options]) =>
      [group, ...options.map(([option, about]) => labelled(flag(option, about), about.said, 20, 2))].join('\n'),
    ),
    ['Examples', ...examples.map((example) => `  ${example.line}\n${wrapped(example.said, { indent: 6 })}`)].join('\n'),
  ]
    .join('\n\n')
    .concat('\n')
}

const flag = (name: string, option: Option): string => (option.value === undefined ? `--${name}` : `--${name} ${option.value}`)

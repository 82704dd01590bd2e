const files = import.meta.glob<string>('../../../examples/*.yaml', { query: '?raw', import: 'default' })
const HOME = '../../../examples/'

/** Documents to start from, by the name of their file without its ending. All are invented. */
export const exampleNames: readonly string[] = Object.keys(files).map((path) => path.slice(HOME.length).replace(/\.yaml$/, ''))

export async function exampleText(name: string): Promise<string | null> {
  const load = files[`${HOME}${name}.yaml`]
  return load === undefined ? null : load()
}

/** Hands a document to the browser as a file. */
export function saveAsFile(name: string, text: string | Uint8Array<ArrayBuffer>, type = 'application/yaml'): void {
  const address = URL.createObjectURL(new Blob([text], { type }))
  const link = document.createElement('a')
  link.href = address
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}

/** Of a name of a file, what stands in the address. */
export const idOf = (file: string): string =>
  file
    .replace(/\.[^.]*$/, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '') || 'job'

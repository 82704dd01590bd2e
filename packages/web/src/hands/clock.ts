/** The one place where the page reads the clock: which day it is where the person stands, ISO 8601. */
export function today(): string {
  const now = new Date()
  const two = (n: number): string => String(n).padStart(2, '0')
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`
}

declare module 'gltf-validator' {
  const validator: {
    readonly validateBytes: (bytes: Uint8Array) => Promise<{
      readonly issues: { readonly numErrors: number; readonly numWarnings: number; readonly messages: readonly unknown[] }
      readonly info: { readonly version: string }
    }>
  }
  export default validator
}

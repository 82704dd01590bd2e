export { cordName, type MachineCord, type MachineKind, machineKind, machineName, type YardMachine } from './machine.ts'

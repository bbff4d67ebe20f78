#!/usr/bin/env node
// Starts the program: its sources are TypeScript, which tsx compiles as they are loaded.
import { register } from 'tsx/esm/api';

register();
const { main } = await import('./main.ts');
process.exitCode = await main(process.argv.slice(2));

// Builds the web part unless it is there, for tests that start the program at the same time.
import { buildWeb } from '../api/build-web.ts'

await buildWeb(console.log)

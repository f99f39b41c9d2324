// Preloaded into a timed child: tells its peak memory (KiB) on a pipe of its own when it ends.
import { writeSync } from 'node:fs';

process.on('exit', () => writeSync(3, String(process.resourceUsage().maxRSS)));

// The contract suite over everything that carries it here.

import { contractSuite } from './contract-suite.ts';
import { HOSTS } from './hosts.ts';

for (const { name, open } of HOSTS) contractSuite(name, open);

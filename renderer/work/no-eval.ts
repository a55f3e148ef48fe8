// Imported first by the window and its worker: the schema library otherwise tries to build functions from text, which the
// content security policy forbids.

import { z } from 'zod';

z.config({ jitless: true });

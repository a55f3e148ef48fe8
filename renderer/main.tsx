// Starts the window: finds the bridge, makes the program's state, asks the host what to show, draws the frame.

import './work/no-eval.ts';
import './app/theme.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { BRIDGE_GLOBAL, type Bridge } from '../electron/contract.ts';
import { Frame } from './app/Frame.tsx';
import { Guard } from './app/Guard.tsx';
import { loopbackBridge } from './app/loopback.ts';
import { startProgram } from './app/start.ts';
import { createApp } from './state/app.ts';
import { AppProvider } from './state/react.ts';
import { startJobs } from './work/jobs.ts';

const own = (globalThis as Record<string, unknown>)[BRIDGE_GLOBAL] as Bridge | undefined;
const jobs = startJobs(() => new Worker(new URL('./work/worker.ts', import.meta.url), { type: 'module' }));
const app = createApp(own ?? loopbackBridge(), jobs);

createRoot(document.getElementById('app')!).render(
  <StrictMode>
    <AppProvider value={app}>
      <Guard part="The window">
        <Frame />
      </Guard>
    </AppProvider>
  </StrictMode>,
);
void startProgram(app);

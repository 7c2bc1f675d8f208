import './styles/base.css';
import './app/app.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { browserServices, ServicesContext } from './app/services.ts';

const root = document.getElementById('root');
if (root && !document.documentElement.hasAttribute('data-old')) {
  createRoot(root).render(
    <StrictMode>
      <ServicesContext value={browserServices()}>
        <App />
      </ServicesContext>
    </StrictMode>,
  );
}

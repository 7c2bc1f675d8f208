import './styles/base.css';
import './app/app.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/app.tsx';
import { browserServices, ServicesContext } from './app/services.ts';

const root = document.getElementById('root');
if (root && !document.documentElement.hasAttribute('data-old')) {
  // React would hear each transition of the page, and nobody here asks it for one: a line that rolls has a hundred.
  const listen = root.addEventListener.bind(root);
  root.addEventListener = (type: string, ...rest: [EventListenerOrEventListenerObject]) => {
    if (!type.startsWith('transition')) listen(type, ...rest);
  };
  createRoot(root).render(
    <StrictMode>
      <ServicesContext value={browserServices()}>
        <App />
      </ServicesContext>
    </StrictMode>,
  );
}

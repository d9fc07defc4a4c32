/* Stands in for a worker where pages are opened from a folder, since browsers start none from there: the worker's script
   runs in a hidden frame, and messages go to it and come from it as they would. Nothing inline, as the policy wants it. */
(function () {
  "use strict";
  if (location.protocol !== "file:") return;

  class DiskWorker extends EventTarget {
    constructor(address) {
      super();
      var frame = document.createElement("iframe");
      frame.hidden = true;
      document.body.appendChild(frame);
      this.frame = frame;
      // Written once, so that no browser puts another blank page in its place later.
      frame.contentDocument.open();
      frame.contentDocument.write("<!doctype html><title>Search</title><body></body>");
      frame.contentDocument.close();
      var inside = frame.contentWindow, worker = this;
      inside.postMessage = function (data) {
        var message = new MessageEvent("message", { data: structuredClone(data) });
        worker.dispatchEvent(message);
        if (worker.onmessage) worker.onmessage(message);
      };
      this.ready = new Promise(function (loaded) {
        var script = frame.contentDocument.createElement("script");
        script.src = new URL(address, location.href).href;
        script.addEventListener("load", loaded);
        frame.contentDocument.body.appendChild(script);
      });
    }

    postMessage(data) {
      var frame = this.frame;
      this.ready.then(function () {
        frame.contentWindow.dispatchEvent(new frame.contentWindow.MessageEvent("message", { data: structuredClone(data) }));
      });
    }

    terminate() { this.frame.remove() }
  }
  window.Worker = DiskWorker;
})();

exports.activate = () => {};

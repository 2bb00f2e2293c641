module linkrod

go 1.26.0

ignore ./pwa/node_modules

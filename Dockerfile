# Linkrod as one static binary in an otherwise empty image.
#
# Read-checked only: there was no Docker engine where this was written, so it
# was never built or run as an image. Its steps were run by hand, one by one.
#
#   docker build -t linkrod .
#   docker run -v linkrod-data:/data -p 7075:7075 linkrod -addr :7075      # to try, on this machine
#   docker run -v linkrod-data:/data -p 7443:7443 -p 7080:7080 linkrod -tls own -name hangar.local,192.168.1.20
#
# (the second one for phones in a hangar, over https). The first lines of
# `docker logs` are the app's link and, the first time, the set-up link. Give
# the names phones will use, not the container's.

# The core for the phone, and the tool that loads it.
FROM golang:1.26-bookworm AS go
WORKDIR /src
COPY go.mod go.sum ./
RUN go mod download
COPY . .
RUN make core

# The front end.
FROM node:20-bookworm-slim AS front
WORKDIR /src
COPY pwa/package.json pwa/package-lock.json pwa/.npmrc pwa/
RUN cd pwa && npm ci --no-audit --no-fund
COPY --from=go /src .
RUN cd pwa && npm run build

# The program, the front end inside.
FROM go AS program
COPY --from=front /src/embed/dist embed/dist
RUN CGO_ENABLED=0 go build -trimpath -ldflags="-s -w" -o /linkrod ./server && mkdir /data

# No shell, no package manager, not root. Certificates are for ACME.
FROM gcr.io/distroless/static-debian12:nonroot
COPY --from=program /linkrod /linkrod
COPY --from=program --chown=nonroot:nonroot /data /data
ENV LINKROD_DATA=/data LINKROD_ADDR=:7443
VOLUME /data
EXPOSE 7443 7080
ENTRYPOINT ["/linkrod"]
